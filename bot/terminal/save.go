package terminal

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"heapside/commands"
)

// maxCopies bounds the search for a free file name.
const maxCopies = 100

// Save writes attachments into folder and returns the paths written. It never
// overwrites: a name that is taken gets a number.
func Save(folder string, files []commands.File) ([]string, error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return nil, err
	}
	var paths []string
	for _, f := range files {
		path, err := saveOne(folder, fileName(f.Name), f.Data)
		if err != nil {
			return paths, err
		}
		paths = append(paths, path)
	}
	return paths, nil
}

func saveOne(folder, name string, data []byte) (string, error) {
	ext := filepath.Ext(name)
	stem := strings.TrimSuffix(name, ext)
	for i := 1; i <= maxCopies; i++ {
		if i > 1 {
			name = fmt.Sprintf("%s-%d%s", stem, i, ext)
		}
		path := filepath.Join(folder, name)
		file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return "", err
		}
		_, err = file.Write(data)
		return path, errors.Join(err, file.Close())
	}
	return "", fmt.Errorf("%s and %d numbered copies are there already", name, maxCopies-1)
}

// fileName makes an attachment's name harmless as a path: letters, digits and
// "._-" stay, a leading dot goes.
func fileName(name string) string {
	name = strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', strings.ContainsRune("._-", r):
			return r
		}
		return '-'
	}, name)
	name = strings.TrimLeft(name, ".")
	if name == "" {
		return "attachment"
	}
	return name
}
