// Command quantities writes, for clients that do not speak Go, how a reading
// becomes its canonical value and which values are asked about: husbandry's
// table of quantities in the contract's numbers.
//
//	go run ./cmd/quantities > clients/web/src/gen/quantities.ts
package main

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
	"freshet.example/server/typed"
)

func main() {
	if err := write(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "quantities:", err)
		os.Exit(1)
	}
}

const head = `// Written by cmd/quantities from husbandry/quantity. Not to be edited.

/** A unit and basis in which a quantity may be given. */
export interface Form {
  unit: number;
  basis: number;
  /** Canonical value = value * scale + offset. */
  scale: number;
  offset: number;
  /** Instead, where the relation is no straight line: values and canonical values between which to interpolate. */
  points?: [value: number, canonical: number][];
}

/** What a reading of a quantity may be. Bounds are inclusive, in the canonical unit. */
export interface QuantityRow {
  quantity: number;
  name: string;
  unit: number;
  basis: number;
  /** Refused outside. */
  low: number;
  high: number;
  /** Asked about outside. */
  usualLow: number;
  usualHigh: number;
  /** The canonical form first. */
  forms: Form[];
}

export const quantityRows: QuantityRow[] = [
`

func write(to io.Writer) error {
	out := bufio.NewWriter(to)
	_, _ = out.WriteString(head) // a bufio.Writer keeps its first error for Flush
	for _, number := range slices.Sorted(maps.Keys(freshetv1.Quantity_name)) {
		if number == 0 {
			continue
		}
		if err := writeQuantity(out, freshetv1.Quantity(number)); err != nil {
			return err
		}
	}
	_, _ = out.WriteString("];\n")
	return out.Flush()
}

// A form is one way a quantity may be given.
type form struct {
	unit  freshetv1.Unit
	basis freshetv1.Basis
	text  string
	exact bool // the canonical unit and basis
}

func writeQuantity(out io.Writer, number freshetv1.Quantity) error {
	var forms []form
	var q quantity.Quantity
	for _, unit := range slices.Sorted(maps.Keys(freshetv1.Unit_name)) {
		for _, basis := range slices.Sorted(maps.Keys(freshetv1.Basis_name)) {
			named, u, b, ok := typed.Of(number, freshetv1.Unit(unit), freshetv1.Basis(basis))
			if !ok {
				continue
			}
			q = named
			text, err := relation(q, u, b)
			if err != nil { // not a form of this quantity
				continue
			}
			forms = append(forms, form{freshetv1.Unit(unit), freshetv1.Basis(basis), text, u == q.Unit() && b == q.Basis()})
		}
	}
	if len(forms) == 0 {
		return fmt.Errorf("%s has no form", number)
	}
	slices.SortStableFunc(forms, func(a, b form) int { return cmp.Compare(rank(a), rank(b)) })
	low, high := q.Plausible()
	usualLow, usualHigh := q.Usual()
	_, err := fmt.Fprintf(out, "  {\n    quantity: %d, name: '%s', unit: %d, basis: %d,\n    low: %s, high: %s, usualLow: %s, usualHigh: %s,\n    forms: [\n",
		number, q, forms[0].unit, forms[0].basis, num(low), num(high), num(usualLow), num(usualHigh))
	for _, f := range forms {
		if err == nil {
			_, err = fmt.Fprintf(out, "      { unit: %d, basis: %d, %s },\n", f.unit, f.basis, f.text)
		}
	}
	if err == nil {
		_, err = io.WriteString(out, "    ],\n  },\n")
	}
	return err
}

func rank(f form) int {
	if f.exact {
		return 0
	}
	return 1
}

// steps is between how many points a relation that is no straight line is
// interpolated.
const steps = 64

// relation says how a typed value becomes the canonical one, found from the
// bounds that husbandry gives: a straight line, or points.
func relation(q quantity.Quantity, u quantity.Unit, b quantity.Basis) (string, error) {
	low, high := q.Plausible()
	if u == quantity.UnitSpecificGravity {
		return points(q, u, b, low, high)
	}
	from, err := quantity.Express(q, low, u, b)
	if err != nil {
		return "", err
	}
	to, err := quantity.Express(q, high, u, b)
	if err != nil {
		return "", err
	}
	scale := (high - low) / (to - from)
	return "scale: " + num(scale) + ", offset: " + num(low-from*scale), nil
}

func points(q quantity.Quantity, u quantity.Unit, b quantity.Basis, low, high float64) (string, error) {
	from, err := quantity.Express(q, low, u, b)
	if err != nil {
		return "", err
	}
	to, err := quantity.Express(q, high, u, b)
	if err != nil {
		return "", err
	}
	var list []string
	for i := range steps + 1 {
		v := from + (to-from)*float64(i)/steps
		c, err := quantity.Canonical(q, min(max(v, from), to), u, b)
		if err != nil {
			return "", err
		}
		list = append(list, "["+num(v)+", "+num(c)+"]")
	}
	return "scale: 0, offset: 0, points: [" + strings.Join(list, ", ") + "]", nil
}

// num writes a number with twelve digits, which is more than any reading has.
func num(v float64) string {
	short, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	return strconv.FormatFloat(short+0, 'f', -1, 64)
}
