package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"heapside/bot/terminal"
	"heapside/calc/fault"
	"heapside/storage"
)

func exportFlags(m *Main, flags *flag.FlagSet) func(context.Context, []string) error {
	var db, guild, channel string
	dbFlag(m, flags, &db)
	flags.StringVar(&guild, "guild", localGuild, "the `ID` of the group")
	flags.StringVar(&channel, "channel", "", "only the channel with this `ID` (default all of the group)")
	return func(ctx context.Context, args []string) error {
		args, err := positional(flags, args, "DIR")
		if err != nil {
			return err
		}
		return m.export(ctx, db, guild, channel, args[0])
	}
}

// export writes each table of a group as CSV and as JSON, and what their columns
// mean, into a folder that holds nothing yet.
func (m *Main) export(ctx context.Context, db, guild, channel, dir string) error {
	if err := there(db); err != nil {
		return err
	}
	record, err := storage.Open(ctx, db)
	if err != nil {
		return err
	}
	m.closers = append(m.closers, record.Close)
	tables, err := record.Export(ctx, guild, channel)
	if err != nil {
		return err
	}
	var parts []string
	rows := 0
	for _, t := range tables {
		parts = append(parts, fmt.Sprintf("%s %d", t.Name, len(t.Rows)))
		rows += len(t.Rows)
	}
	if rows == 0 {
		return fault.New(fault.Unknown, "There is nothing of the group “%s” in the record; -guild and -channel say whose record it is.", guild)
	}
	if err := emptyDir(dir); err != nil {
		return err
	}
	for _, t := range tables {
		for suffix, encode := range map[string]func(storage.Table) ([]byte, error){".csv": tableCSV, ".json": tableJSON} {
			data, err := encode(t)
			if err == nil {
				err = writeNew(filepath.Join(dir, t.Name+suffix), data)
			}
			if err != nil {
				return fmt.Errorf("export %s: %w", t.Name, err)
			}
		}
	}
	data, err := columnsCSV(tables)
	if err == nil {
		err = writeNew(filepath.Join(dir, "columns.csv"), data)
	}
	if err != nil {
		return fmt.Errorf("export the meaning of columns: %w", err)
	}
	return m.sayf("Exported to %s: %s. columns.csv says what the columns mean.\n", terminal.Clean(dir), strings.Join(parts, ", "))
}

// emptyDir makes the folder, or makes sure that nothing lies in it.
func emptyDir(dir string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return fault.New(fault.NotSaved, "The folder “%s” cannot be made (%v).", dir, errors.Unwrap(err))
	}
	left, err := os.ReadDir(dir)
	if err != nil {
		return fmt.Errorf("export: %w", err)
	}
	if len(left) > 0 {
		return fault.New(fault.Taken, "The folder “%s” is not empty. Name a new one.", dir)
	}
	return nil
}

func writeNew(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, fs.FileMode(0o600))
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Sync(), f.Close())
}

func tableCSV(t storage.Table) ([]byte, error) {
	rows := [][]string{make([]string, len(t.Columns))}
	for i, c := range t.Columns {
		rows[0][i] = c.Name
	}
	for _, values := range t.Rows {
		cells := make([]string, len(values))
		for i, v := range values {
			cells[i] = cell(v)
		}
		rows = append(rows, cells)
	}
	return asCSV(rows)
}

func columnsCSV(tables []storage.Table) ([]byte, error) {
	rows := [][]string{{"table", "column", "meaning"}}
	for _, t := range tables {
		for _, c := range t.Columns {
			rows = append(rows, []string{t.Name, c.Name, c.Meaning})
		}
	}
	return asCSV(rows)
}

func asCSV(rows [][]string) ([]byte, error) {
	var b bytes.Buffer
	err := csv.NewWriter(&b).WriteAll(rows)
	return b.Bytes(), err
}

// cell is a value as text. A spreadsheet would run text that begins like a
// formula, so that gets a quote before it.
func cell(v any) string {
	var s string
	switch v := v.(type) {
	case nil:
		return ""
	case json.RawMessage:
		s = string(v)
	case string:
		s = v
	default:
		return fmt.Sprint(v)
	}
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}

// tableJSON is a list of objects, their members in the order of the columns.
func tableJSON(t storage.Table) ([]byte, error) {
	var b bytes.Buffer
	b.WriteString("[")
	for n, values := range t.Rows {
		b.WriteString(between(n, "\n  {", ",\n  {"))
		for i, v := range values {
			data, err := json.Marshal(v)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", t.Columns[i].Name, err)
			}
			fmt.Fprintf(&b, "%s%q: %s", between(i, "", ", "), t.Columns[i].Name, data)
		}
		b.WriteString("}")
	}
	b.WriteString(between(len(t.Rows), "]\n", "\n]\n"))
	return b.Bytes(), nil
}

func between(n int, first, later string) string {
	if n == 0 {
		return first
	}
	return later
}
