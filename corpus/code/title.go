package code

import "strings"

// Title returns the name of a language as people write it. Names that are not
// those of a language, as of a table of one's own, are returned as they are.
func Title(name string) string {
	switch name {
	case "c":
		return "C"
	case "cpp":
		return "C++"
	case "csharp":
		return "C#"
	case "javascript":
		return "JavaScript"
	case "typescript":
		return "TypeScript"
	case "css", "html", "php", "sql", "toml", "yaml":
		return strings.ToUpper(name)
	case "dart", "go", "haskell", "java", "kotlin", "lua", "markdown", "python", "ruby", "rust", "scala", "swift", "zig":
		return strings.ToUpper(name[:1]) + name[1:]
	}
	return name
}
