package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
)

// store is a directory with packages: what is in it is not fetched again.
type store struct {
	dir string
	out io.Writer // told what is done
}

func newStore(ctx context.Context, dir string, out io.Writer) (*store, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	s := &store{dir, out}
	for _, d := range []string{"fetched", "unpacked", "apt/lists/partial", "apt/cache/archives/partial"} {
		if err := os.MkdirAll(filepath.Join(dir, d), 0o755); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// fetch returns the directory of a package and its version.
func (s *store) fetch(ctx context.Context, p pack) (dir, version string, err error) {
	if p.kind == distribution {
		root, err := output(ctx, "", "go", "env", "GOROOT", "GOVERSION")
		root, version, _ = strings.Cut(strings.TrimSpace(root), "\n")
		return root, strings.TrimPrefix(version, "go"), err
	}
	archive, err := s.archive(ctx, p)
	if err != nil {
		return "", "", err
	}
	dir = filepath.Join(s.dir, "unpacked", filepath.Base(archive))
	if _, err := os.Stat(dir); err != nil {
		if err := unpack(ctx, archive, dir); err != nil {
			return "", "", err
		}
	}
	return dir, versionOf(p, archive), nil
}

// archive returns the file of a package, and fetches it if it is not there.
func (s *store) archive(ctx context.Context, p pack) (string, error) {
	dir := filepath.Join(s.dir, "fetched")
	if file := fetched(dir, p); file != "" {
		return file, nil
	}
	fmt.Fprintln(s.out, "fetching", p.title())
	var err error
	switch p.kind {
	case npm:
		_, err = output(ctx, dir, "npm", "pack", "--silent", p.name)
	case debian:
		err = s.apt(ctx, dir, "download", "-qq", p.name)
	case debianSource:
		err = s.source(ctx, dir, p)
	}
	if err != nil {
		return "", err
	}
	file := fetched(dir, p)
	if file == "" {
		return "", fmt.Errorf("nothing came that is called %s", pattern(p))
	}
	return file, nil
}

// fetched returns the file of a package in dir, "" where it is not there.
func fetched(dir string, p pack) string {
	if files, _ := filepath.Glob(filepath.Join(dir, pattern(p))); len(files) > 0 {
		return files[0]
	}
	return ""
}

// source fetches a Debian source package: its newest version, or another where that
// one is not to be had, since archives name some before or after they hold them.
// Packages whose other parts are missing are fine: the packager's changes are not
// counted.
func (s *store) source(ctx context.Context, dir string, p pack) error {
	if err := s.aptReady(ctx, dir); err != nil {
		return err
	}
	listed, err := output(ctx, dir, "apt-cache", "-c", s.aptSettings(), "showsrc", "--only-source", p.name)
	if err != nil {
		return err
	}
	var versions []string
	for line := range strings.Lines(listed) {
		if v, ok := strings.CutPrefix(line, "Version: "); ok {
			versions = append(versions, strings.TrimSpace(v))
		}
	}
	// With no version asked for, apt-get takes the newest.
	for _, which := range append([]string{p.name}, versions...) {
		if which != p.name {
			which = p.name + "=" + which
		}
		_ = s.apt(ctx, dir, "source", "--download-only", "-qq", which)
		if fetched(dir, p) != "" {
			return nil
		}
	}
	return nil // archive says that nothing came
}

// pattern matches the archive of a package.
func pattern(p pack) string {
	switch p.kind {
	case npm:
		name, major, _ := strings.Cut(p.name, "@")
		return name + "-" + major + ".*.tgz"
	case debian:
		return p.name + "_*.deb"
	}
	return p.name + "_*.orig.tar.*z*"
}

func versionOf(p pack, archive string) string {
	base := filepath.Base(archive)
	if p.kind == npm {
		name, _, _ := strings.Cut(p.name, "@")
		return strings.TrimSuffix(strings.TrimPrefix(base, name+"-"), ".tgz")
	}
	version := strings.Split(strings.TrimSuffix(base, ".deb"), "_")[1]
	version, _, _ = strings.Cut(version, ".orig.tar")
	return regexp.MustCompile(`%3a`).ReplaceAllString(version, ":")
}

func unpack(ctx context.Context, archive, dir string) error {
	if strings.HasSuffix(archive, ".deb") {
		_, err := output(ctx, "", "dpkg-deb", "-x", archive, dir)
		return err
	}
	if err := os.Mkdir(dir, 0o755); err != nil {
		return err
	}
	_, err := output(ctx, "", "tar", "xf", archive, "-C", dir, "--strip-components=1", "--no-same-owner")
	return err
}

// apt runs apt-get with lists of its own, which have source packages too, so
// that nothing of the system changes.
func (s *store) apt(ctx context.Context, dir string, args ...string) error {
	if err := s.aptReady(ctx, dir); err != nil {
		return err
	}
	_, err := output(ctx, dir, "apt-get", append([]string{"-c", s.aptSettings()}, args...)...)
	return err
}

func (s *store) aptSettings() string { return filepath.Join(s.dir, "apt", "apt.conf") }

// aptReady reads the archives' lists, once.
func (s *store) aptReady(ctx context.Context, dir string) error {
	settings := s.aptSettings()
	if _, err := os.Stat(settings); err == nil {
		return nil
	}
	if err := s.writeAptSettings(ctx, settings); err != nil {
		return err
	}
	_, err := output(ctx, dir, "apt-get", "-c", settings, "update", "-qq")
	return err
}

// writeAptSettings names the system's own archives, with their sources.
func (s *store) writeAptSettings(ctx context.Context, settings string) error {
	targets, err := output(ctx, "", "apt-get", "indextargets", "--format", "$(ORIGIN) $(REPO_URI) $(RELEASE) $(COMPONENT)", "Created-By: Packages")
	if err != nil {
		return err
	}
	var sources strings.Builder
	for line := range strings.Lines(targets) {
		if archive, ok := strings.CutPrefix(strings.TrimSpace(line), "Debian "); ok {
			for _, kind := range []string{"deb", "deb-src"} {
				fmt.Fprintf(&sources, "%s [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] %s\n", kind, archive)
			}
		}
	}
	apt := filepath.Join(s.dir, "apt")
	text := fmt.Sprintf("Dir::Etc::SourceList %q;\nDir::Etc::SourceParts \"/dev/null\";\nDir::State::Lists %q;\nDir::Cache %q;\nAPT::Sandbox::User \"root\";\n",
		filepath.Join(apt, "sources.list"), filepath.Join(apt, "lists"), filepath.Join(apt, "cache"))
	if err := os.WriteFile(filepath.Join(apt, "sources.list"), []byte(sources.String()), 0o644); err != nil {
		return err
	}
	return os.WriteFile(settings, []byte(text), 0o644)
}

// output runs a program in dir and returns what it prints.
func output(ctx context.Context, dir, name string, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Dir = dir
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	if err := cmd.Run(); err != nil {
		return "", fmt.Errorf("%s %s: %w: %s", name, strings.Join(args, " "), err, strings.TrimSpace(stderr.String()))
	}
	return stdout.String(), nil
}
