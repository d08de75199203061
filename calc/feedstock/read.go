package feedstock

import (
	_ "embed" // the tables below
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"heapside/calc/measure"
)

var (
	//go:embed table.csv
	tableCSV string
	//go:embed cautions.csv
	cautionsCSV string
	//go:embed refusals.csv
	refusalsCSV string
	//go:embed sources.csv
	sourcesCSV string
)

// row is one line of a table by column name.
type row map[string]string

// readRows reads a table with a header line; every row must be complete.
func readRows(text string, columns ...string) ([]row, error) {
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return nil, err
	}
	if len(lines) == 0 || !slices.Equal(lines[0], columns) {
		return nil, fmt.Errorf("the header is not %v", columns)
	}
	rows := make([]row, 0, len(lines)-1)
	for _, line := range lines[1:] {
		r := make(row, len(columns))
		for i, column := range columns {
			r[column] = line[i]
		}
		rows = append(rows, r)
	}
	return rows, nil
}

func (r row) list(column string) []string {
	if r[column] == "" {
		return nil
	}
	return strings.Split(r[column], "|")
}

// property reads "low/typical/high" and the sources in the column beside it.
func (r row) property(column string) (Property, error) {
	parts := strings.Split(r[column], "/")
	if len(parts) != 3 {
		return Property{}, fmt.Errorf("%s of %s: %q is not low/typical/high", column, r["id"], r[column])
	}
	var v [3]float64
	for i, part := range parts {
		x, err := strconv.ParseFloat(part, 64)
		if err != nil {
			return Property{}, fmt.Errorf("%s of %s: %w", column, r["id"], err)
		}
		v[i] = x
	}
	return Property{Range: measure.Range{Low: v[0], Typical: v[1], High: v[2]}, Source: r[column+"_source"]}, nil
}

func readStocks(table, cautions string) ([]Feedstock, error) {
	sentences, err := readCautions(cautions)
	if err != nil {
		return nil, err
	}
	rows, err := readRows(table, "id", "name", "kind", "carbon", "carbon_source", "cn", "cn_source",
		"moisture", "moisture_source", "density", "density_source", "volatile", "volatile_source",
		"degradable", "degradable_source", "flags", "everyday", "caution", "aliases")
	if err != nil {
		return nil, err
	}
	stocks := make([]Feedstock, 0, len(rows))
	for _, r := range rows {
		f, err := r.stock(sentences)
		if err != nil {
			return nil, err
		}
		stocks = append(stocks, f)
	}
	return stocks, nil
}

func (r row) stock(sentences map[string]string) (Feedstock, error) {
	f := Feedstock{ID: r["id"], Name: r["name"], Kind: Kind(r["kind"]), Aliases: r.list("aliases")}
	for column, p := range map[string]*Property{
		"carbon": &f.Carbon, "cn": &f.CN, "moisture": &f.Moisture,
		"density": &f.Density, "volatile": &f.Volatile, "degradable": &f.Degradable,
	} {
		var err error
		if *p, err = r.property(column); err != nil {
			return Feedstock{}, err
		}
	}
	if err := f.setFlags(strings.Fields(r["flags"])); err != nil {
		return Feedstock{}, err
	}
	var err error
	if f.Everyday, err = strconv.Atoi(r["everyday"]); err != nil {
		return Feedstock{}, fmt.Errorf("everyday of %s: %w", f.ID, err)
	}
	if f.Caution, err = join(sentences, strings.Fields(r["caution"])); err != nil {
		return Feedstock{}, fmt.Errorf("caution of %s: %w", f.ID, err)
	}
	return f, nil
}

func (f *Feedstock) setFlags(words []string) error {
	flags := map[string]*bool{"mineral": &f.Mineral, "coarse": &f.Coarse, "matting": &f.Matting, "chop": &f.Chop}
	for _, w := range words {
		flag, ok := flags[w]
		if !ok {
			return fmt.Errorf("flags of %s: %q is not a flag", f.ID, w)
		}
		*flag = true
	}
	return nil
}

// readCautions reads the sentences that several materials share, by id.
func readCautions(text string) (map[string]string, error) {
	rows, err := readRows(text, "id", "sentence")
	if err != nil {
		return nil, err
	}
	sentences := make(map[string]string, len(rows))
	for _, r := range rows {
		sentences[r["id"]] = r["sentence"]
	}
	return sentences, nil
}

func join(sentences map[string]string, ids []string) (string, error) {
	parts := make([]string, len(ids))
	for i, id := range ids {
		sentence, ok := sentences[id]
		if !ok {
			return "", fmt.Errorf("%q is not a caution", id)
		}
		parts[i] = sentence
	}
	return strings.Join(parts, " "), nil
}

func readRefusals(text string) ([]Refusal, error) {
	rows, err := readRows(text, "id", "name", "reason", "source", "aliases")
	if err != nil {
		return nil, err
	}
	refusals := make([]Refusal, 0, len(rows))
	for _, r := range rows {
		refusals = append(refusals, Refusal{
			ID: r["id"], Name: r["name"], Reason: r["reason"], Source: r["source"], Aliases: r.list("aliases"),
		})
	}
	return refusals, nil
}
