package commands

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strconv"
	"strings"
	"time"

	"heapside/calc/heap"
)

// tables are the files of a history. What was changed has a table of its own:
// it has no number and no heap, and whoever reads the record as a table goes on
// finding one entry in each row.
func (d *desk) tables(h history) (headline string, files []File, err error) {
	changed := 0
	for _, a := range h.acts {
		changed += len(a.Changes)
	}
	if len(h.entries) > 0 {
		data, err := d.csv(h.entries, h.names)
		if err != nil {
			return "", nil, err
		}
		files = append(files, File{Name: "record.csv", ContentType: "text/csv", Data: data,
			Alt: d.in.Say("Table of %d entries: number, heap, time, person, kind, value", len(h.entries))})
	}
	if changed > 0 {
		data, err := d.changesCSV(h)
		if err != nil {
			return "", nil, err
		}
		files = append(files, File{Name: "changes.csv", ContentType: "text/csv", Data: data,
			Alt: d.in.Say("Table of %d changes: time, person, topic, from what to what", changed)})
	}
	if len(files) == 2 {
		return d.in.Say("The record as two tables: %d entries and %d changes.", len(h.entries), changed), files, nil
	}
	rows := len(h.entries) + changed
	if rows == 1 {
		return d.in.Word("The record as a table: 1 row."), files, nil
	}
	return d.in.Say("The record as a table: %d rows.", rows), files, nil
}

func (d *desk) csv(entries []heap.Entry, names map[heap.ID]string) ([]byte, error) {
	rows := [][]string{{"number", "heap", "happened", "logged", "person", "kind", "what", "data", "taken_back_by"}}
	for _, e := range entries {
		data, err := heap.Encode(e.Payload)
		if err != nil {
			return nil, err
		}
		voided := ""
		if e.VoidedBy != 0 {
			voided = strconv.FormatInt(int64(e.VoidedBy), 10)
		}
		rows = append(rows, []string{strconv.FormatInt(int64(e.ID), 10), cell(names[e.Heap]), e.At.In(d.zone).Format(time.RFC3339),
			e.Logged.In(d.zone).Format(time.RFC3339), cell(e.By.Name), string(e.Payload.Kind()), cell(d.say(e)), string(data), voided})
	}
	return table(rows)
}

// changesCSV has a row for each thing that was changed, with both values as they
// are kept.
func (d *desk) changesCSV(h history) ([]byte, error) {
	rows := [][]string{{"changed", "topic", "person", "thing", "of", "heap", "people", "from", "to", "what"}}
	for _, a := range h.acts {
		for _, c := range a.Changes {
			said, err := d.sayChange(c, h.names)
			if err != nil {
				return nil, err
			}
			rows = append(rows, []string{a.At.In(d.zone).Format(time.RFC3339), string(a.Topic), cell(a.By.Name), string(c.What), cell(c.Of),
				cell(h.names[c.Heap]), cell(whom(c)), datum(c.From), datum(c.To), cell(said)})
		}
	}
	return table(rows)
}

func table(rows [][]string) ([]byte, error) {
	var buf bytes.Buffer
	err := csv.NewWriter(&buf).WriteAll(rows)
	return buf.Bytes(), err
}

// datum is a value as it is kept, a text without its quotation marks.
func datum(data json.RawMessage) string {
	var text string
	if json.Unmarshal(data, &text) == nil {
		return cell(text)
	}
	return string(data)
}

// cell keeps a spreadsheet from running text that people typed as a formula.
func cell(s string) string {
	if s != "" && strings.ContainsRune("=+-@", rune(s[0])) {
		return "'" + s
	}
	return s
}
