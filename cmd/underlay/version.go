package main

import (
	"fmt"
	"runtime/debug"

	"github.com/spf13/cobra"
)

// version is what a build says of itself.
type version struct {
	Version  string `json:"version"`
	Revision string `json:"revision,omitempty"`
	Modified bool   `json:"modified,omitempty"`
	Go       string `json:"go"`
}

func newVersion(env *Env) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "version",
		Short: "Say which build this is",
		Long:  `Prints the version of the program, the revision that it was built from, and the version of Go.`,
		Args:  takes(0, 0),
		RunE: func(*cobra.Command, []string) error {
			v := build()
			if asJSON {
				return env.json(v)
			}
			_, err := fmt.Fprintln(env.Stdout, v)
			return err
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	return c
}

func build() version {
	v := version{Version: "unknown"}
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return v
	}
	v.Version, v.Go = info.Main.Version, info.GoVersion
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			v.Revision = s.Value
		case "vcs.modified":
			v.Modified = s.Value == "true"
		}
	}
	return v
}

func (v version) String() string {
	text := "underlay " + v.Version
	if v.Revision != "" {
		text += ", revision " + v.Revision[:min(12, len(v.Revision))]
	}
	if v.Modified {
		text += " with changes"
	}
	return text + ", " + v.Go
}
