package main

import (
	"path"
	"slices"
	"strings"
)

// kind says which client fetches a package.
type kind int

const (
	distribution kind = iota // the Go distribution that is installed
	debianSource             // a source package of Debian
	debian                   // a binary package of Debian
	npm
)

// pack is a package with the directories of it that are counted.
type pack struct {
	kind    kind
	name    string
	licence string // SPDX
	dirs    []string
}

// title names the package in tables.
func (p pack) title() string {
	switch p.kind {
	case debianSource:
		return "Debian source " + p.name
	case debian:
		return "Debian " + p.name
	case npm:
		return "npm " + p.name
	}
	return p.name
}

// recipe says what a table is counted from.
type recipe struct {
	language string
	packages []pack
	tests    bool   // count tests too
	general  bool   // keep general names only: see generalNames
	besides  string // names that are general too
}

// leaves leaves out what is not typed for its own sake: tests with their odd
// inputs, what compilers put out, and the packagers' own files.
func (r recipe) leaves(name string, isDir bool) bool {
	base := strings.ToLower(path.Base(name))
	if !isDir {
		return strings.HasSuffix(base, ".d.ts") || strings.HasSuffix(base, ".d.mts") || strings.HasSuffix(base, ".d.cts")
	}
	if slices.Contains([]string{"debian", "dist", "fixtures", "deps", "encodings"}, base) {
		return true
	}
	return !r.tests && slices.Contains([]string{"test", "tests", "testdata", "spec", "guava-tests", "guava-testlib"}, base)
}

func from(k kind, licence, name string, dirs ...string) pack {
	if len(dirs) == 0 {
		dirs = []string{"."}
	}
	return pack{k, name, licence, dirs}
}

func recipes() []recipe {
	all := every()
	return []recipe{
		{language: "go", packages: goPackages()},
		{language: "c", packages: cPackages()},
		{language: "cpp", packages: cppPackages()},
		{language: "rust", packages: rustPackages()},
		{language: "java", packages: javaPackages()},
		{language: "javascript", packages: javascriptPackages()},
		{language: "typescript", packages: typescriptPackages()},
		{language: "python", packages: pythonPackages()},
		{language: "ruby", packages: rubyPackages()},
		{language: "lua", packages: luaPackages(), tests: true},
		{language: "haskell", packages: haskellPackages(), tests: true},
		{language: "shell", packages: append(shellPackages(), all...), tests: true, general: true, besides: utilities()},
		{language: "sql", packages: []pack{from(debianSource, "PostgreSQL", "postgresql-15", "src/test", "contrib", "src/backend", "src/tutorial")}, tests: true, general: true},
		{language: "html", packages: all, general: true, besides: functionWords},
		{language: "css", packages: []pack{
			from(npm, "MIT", "bootstrap@5", "scss"), from(npm, "MIT", "bulma@1", "sass"), from(npm, "MIT", "normalize.css@8"),
			from(debianSource, "BSD-3-Clause", "python-django", "django")}},
		{language: "yaml", packages: all, general: true},
		{language: "toml", packages: append([]pack{from(debian, "MIT OR Apache-2.0", "rust-src", "usr/src/*")}, all...), general: true},
		{language: "markdown", packages: all, general: true, besides: functionWords},
	}
}

// every is all packages: settings and documents are in each.
func every() []pack {
	return slices.Concat(goPackages(), cPackages(), cppPackages(), rustPackages(), javaPackages(), javascriptPackages(),
		typescriptPackages(), pythonPackages(), rubyPackages(), luaPackages(), haskellPackages())
}

func goPackages() []pack {
	return []pack{from(distribution, "BSD-3-Clause", "Go distribution", "src")}
}

func cPackages() []pack {
	return []pack{
		from(debianSource, "Zlib", "zlib"), from(debianSource, "MIT", "lua5.4"), from(debianSource, "MIT", "musl"),
		from(debianSource, "curl", "curl"), from(debianSource, "BSD-2-Clause", "nginx"), from(debianSource, "MIT", "libuv1"),
		from(debianSource, "BSD-3-Clause", "redis"),
	}
}

func cppPackages() []pack {
	return []pack{
		from(debianSource, "Apache-2.0", "abseil"), from(debianSource, "MIT", "fmtlib"), from(debianSource, "BSD-3-Clause", "leveldb"),
		from(debianSource, "BSD-3-Clause", "googletest"), from(debianSource, "MIT", "spdlog"), from(debianSource, "MIT", "nlohmann-json3"),
	}
}

func rustPackages() []pack {
	return []pack{
		from(debian, "MIT OR Apache-2.0", "rust-src", "usr/src/*/library/core", "usr/src/*/library/alloc", "usr/src/*/library/std"),
		from(debianSource, "MIT OR Unlicense", "rust-ripgrep"), from(debianSource, "MIT OR Apache-2.0", "rust-serde"),
	}
}

func javaPackages() []pack {
	return []pack{from(debianSource, "Apache-2.0", "guava-libraries"), from(debianSource, "Apache-2.0", "libcommons-lang3-java")}
}

func javascriptPackages() []pack {
	return []pack{
		from(npm, "MIT", "webpack@5", "lib"), from(npm, "MIT", "eslint@9", "lib"), from(npm, "MIT", "express@5"), from(npm, "MIT", "koa@3"),
		from(npm, "MIT", "mocha@11"), from(npm, "MIT", "yargs@18"), from(npm, "MIT", "lodash@4"),
	}
}

func typescriptPackages() []pack {
	return []pack{from(npm, "Apache-2.0", "rxjs@7", "src"), from(npm, "MIT", "zod@4", "src"), from(npm, "MIT", "effect@3", "src"),
		from(npm, "MIT", "ajv@8"), from(npm, "MIT", "immer@11"), from(npm, "MIT", "mobx@6"), from(npm, "MIT", "graphql-request@7")}
}

func pythonPackages() []pack {
	return []pack{
		from(debian, "PSF-2.0", "libpython3.11-stdlib"), from(debian, "PSF-2.0", "libpython3.11-minimal"),
		from(debianSource, "BSD-3-Clause", "python-django", "django"),
	}
}

func rubyPackages() []pack {
	return []pack{
		from(debian, "Ruby OR BSD-2-Clause", "libruby3.1"), from(debian, "MIT", "ruby-rack"), from(debian, "MIT", "ruby-sinatra"),
		from(debian, "MIT", "rake"), from(debianSource, "MIT", "rails"),
	}
}

func luaPackages() []pack {
	return []pack{
		from(debian, "MIT", "lua-penlight"), from(debianSource, "MIT", "luarocks"), from(debian, "MIT", "lua-busted"),
		from(debianSource, "MIT", "lua-luassert"), from(debianSource, "MIT", "luasocket"),
	}
}

func haskellPackages() []pack {
	return []pack{
		from(debianSource, "BSD-3-Clause", "haskell-aeson"), from(debianSource, "MIT", "haskell-conduit"),
		from(debianSource, "BSD-2-Clause", "haskell-lens"), from(debianSource, "BSD-2-Clause", "haskell-megaparsec"),
		from(debianSource, "BSD-3-Clause", "haskell-servant"),
	}
}

func shellPackages() []pack {
	return []pack{
		from(debian, "MIT", "bats"), from(debian, "CC0-1.0", "bats-assert"), from(debian, "CC0-1.0", "bats-file"),
		from(debian, "MIT", "dehydrated"), from(debian, "Apache-2.0", "shunit2"), from(debian, "BSD-2-Clause", "git-flow"),
		from(debian, "MIT", "git-extras"), from(debian, "MIT", "neofetch"), from(debianSource, "Apache-2.0", "bazel-bootstrap"),
		from(debianSource, "Apache-2.0", "golang-github-containers-buildah"), from(debianSource, "Apache-2.0", "kubernetes"),
		from(debianSource, "Apache-2.0", "libpod"), from(debianSource, "Apache-2.0", "lxd"), from(debianSource, "Apache-2.0", "runc"),
	}
}
