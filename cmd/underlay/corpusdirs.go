package main

import (
	"cmp"
	"context"
	"os"
	"path/filepath"

	"underlay/corpus"
)

// addDirs scans each directory, from the root of the repository that it is in,
// so that the .gitignore files above it count.
func addDirs(ctx context.Context, scan *corpus.Scan, dirs []string) error {
	for _, dir := range dirs {
		full, err := filepath.Abs(dir)
		if err == nil {
			full, err = filepath.EvalSymlinks(full)
		}
		if err != nil {
			return misuse("%w", tried("scan", dir, plainLinks(dir, err)))
		}
		info, err := os.Stat(full)
		switch {
		case err != nil:
			return misuse("%w", tried("scan", dir, err))
		case !info.IsDir() && !info.Mode().IsRegular():
			return misuse("scan %q: it is neither a directory nor a file", dir)
		}
		root := repository(full, info.IsDir())
		below, err := filepath.Rel(root, full)
		if err != nil {
			return failure("%w", tried("scan", dir, err))
		}
		if err := scan.Add(ctx, os.DirFS(root), filepath.ToSlash(below)); err != nil {
			return cmp.Or(ctx.Err(), error(misuse("%w", tried("scan", dir, err))))
		}
	}
	return nil
}

// plainLinks is an error of following links as the system words it.
func plainLinks(dir string, err error) error {
	if _, again := os.Stat(dir); again != nil {
		return again
	}
	return err
}

// repository is the directory above a place that has a .git in it, or without
// one the place itself, for a file its directory.
func repository(place string, isDir bool) string {
	if !isDir {
		place = filepath.Dir(place)
	}
	for dir := place; ; dir = filepath.Dir(dir) {
		if exists(filepath.Join(dir, ".git")) {
			return dir
		}
		if dir == filepath.Dir(dir) {
			return place
		}
	}
}
