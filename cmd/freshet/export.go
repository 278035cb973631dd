package main

import (
	"bufio"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/types/known/timestamppb"

	"freshet.example/clients/device"
	"freshet.example/cmd/freshet/words"
)

func exportCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "export FOLDER",
		Short: "Write everything on this device as CSV, one file a noun",
		Long: "Write everything on this device as CSV, one file a noun, with the contract's names as headers. Cells\n" +
			"that a spreadsheet would take for a formula get a ' before them. An existing file is not replaced.",
		Example: example("freshet export papers", "freshet --site \"Mill barn\" export papers"),
		Args:    oneArgument("the folder"),
		RunE:    func(c *cobra.Command, args []string) error { return export(c.Context(), a, args[0]) },
	}
}

func export(ctx context.Context, a *app, folder string) error {
	desk, err := a.desk(ctx)
	if err != nil {
		return err
	}
	if a.site == "" {
		desk.SiteID = "" // everything, also of the co-op and of other sites
	}
	if err := os.MkdirAll(folder, 0o750); err != nil {
		return err
	}
	counts := map[string]int{}
	for _, kind := range device.RecordKinds() {
		if counts[kind], err = exportRecords(desk.Book.Of(desk.SiteID, kind), folder, kind); err != nil {
			return err
		}
	}
	for _, kind := range device.EventKinds() {
		entries, err := a.dev.Entries(ctx, device.Want{Kinds: []string{kind}, SiteID: desk.SiteID})
		if err != nil {
			return err
		}
		if counts[kind], err = exportEvents(entries, folder, kind); err != nil {
			return err
		}
	}
	if a.json {
		return printJSON(a.out, counts)
	}
	total, files := 0, 0
	for _, n := range counts {
		if n > 0 {
			total, files = total+n, files+1
		}
	}
	p := a.page()
	p.Say(fmt.Sprintf("Wrote %s to %s in %s.", many(total, "row", "rows"), many(files, "file", "files"), folder))
	return p.Err()
}

func exportRecords(records []device.Record, folder, kind string) (int, error) {
	if len(records) == 0 {
		return 0, nil
	}
	fields := records[0].Message.Descriptor().Fields()
	return len(records), writeCSV(folder, kind, append([]string{"id", "site_id"}, words.FieldNames(records[0].Message.Descriptor())...),
		func(row func([]string) error) error {
			for _, r := range records {
				cells := append([]string{r.ID, r.SiteID}, cells(r.Message, fields)...)
				if err := row(cells); err != nil {
					return err
				}
			}
			return nil
		})
}

func exportEvents(entries []device.Entry, folder, kind string) (int, error) {
	if len(entries) == 0 {
		return 0, nil
	}
	_, body := device.NewEvent(kind)
	fields := body.Descriptor().Fields()
	header := append([]string{"id", "site_id", "occurred_at", "member_id"}, words.FieldNames(body.Descriptor())...)
	if kind == "reading" {
		header = append(header, "value")
	}
	return len(entries), writeCSV(folder, kind, header, func(row func([]string) error) error {
		for _, e := range entries {
			at := e.Event.GetOccurredAt().AsTime().UTC().Format(time.RFC3339)
			line := append([]string{e.ID, e.Event.GetSiteId(), at, e.MemberID}, cells(device.EventBody(e.Event), fields)...)
			if r := e.Event.GetReading(); r != nil {
				line = append(line, words.Measure(r).String())
			}
			if err := row(line); err != nil {
				return err
			}
		}
		return nil
	})
}

// cells writes a message's fields in their order.
func cells(m protoreflect.Message, fields protoreflect.FieldDescriptors) []string {
	out := make([]string, fields.Len())
	for i := range out {
		if field := fields.Get(i); m.Has(field) {
			out[i] = cell(field, m.Get(field))
		}
	}
	return out
}

func cell(field protoreflect.FieldDescriptor, v protoreflect.Value) string {
	if field.IsList() {
		parts := make([]string, v.List().Len())
		for i := range parts {
			parts[i] = single(field, v.List().Get(i))
		}
		return strings.Join(parts, "; ")
	}
	return single(field, v)
}

func single(field protoreflect.FieldDescriptor, v protoreflect.Value) string {
	switch field.Kind() {
	case protoreflect.EnumKind:
		return words.EnumWord(field.Enum(), v.Enum())
	case protoreflect.BytesKind:
		return fmt.Sprintf("%x", v.Bytes())
	case protoreflect.MessageKind:
		if t, ok := v.Message().Interface().(*timestamppb.Timestamp); ok {
			return t.AsTime().UTC().Format(time.RFC3339)
		}
		raw, err := protoJSON(v.Message().Interface())
		if err != nil {
			return ""
		}
		return string(raw)
	}
	return v.String()
}

// writeCSV writes a file that must not be there yet.
func writeCSV(folder, kind string, header []string, rows func(func([]string) error) error) (err error) {
	f, err := os.OpenFile(filepath.Join(folder, kind+".csv"), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600) //nolint:gosec // the person names the folder
	if errors.Is(err, os.ErrExist) {
		return wrong(filepath.Join(folder, kind+".csv")+" is there already", "give an empty folder")
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	b := bufio.NewWriterSize(f, 1<<16)
	w := csv.NewWriter(b)
	if err := w.Write(header); err != nil {
		return err
	}
	if err := rows(func(cells []string) error {
		for i := range cells {
			cells[i] = harmless(cells[i])
		}
		return w.Write(cells)
	}); err != nil {
		return err
	}
	w.Flush()
	return errors.Join(w.Error(), b.Flush())
}

// harmless keeps a spreadsheet from running a cell that somebody wrote: what
// begins like a formula gets a ' before it. Numbers stay numbers.
func harmless(cell string) string {
	if cell == "" || !strings.ContainsRune("=+-@\t\r", rune(cell[0])) || isNumber(cell) {
		return cell
	}
	return "'" + cell
}

func isNumber(text string) bool {
	_, err := strconv.ParseFloat(text, 64)
	return err == nil
}
