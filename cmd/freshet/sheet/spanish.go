package sheet

import (
	"strings"
	"unicode"

	"golang.org/x/text/runes"
	"golang.org/x/text/transform"
	"golang.org/x/text/unicode/norm"
)

// spanish are headers of sheets that were kept in Spanish, without accents.
var spanish = map[string]string{
	"fecha": "date", "dia": "date", "hora": "time", "lugar": "place", "tanque": "tank", "cama": "bed",
	"parametro": "parameter", "valor": "value", "unidad": "unit", "unidades": "unit",
	"temperatura": "temperature", "temperatura_del_agua": "temperature", "temperatura_agua": "temperature", "temperatura_del_aire": "air",
	"amonio": "ammonia", "amoniaco": "ammonia", "nitrito": "nitrite", "nitritos": "nitrite", "nitrato": "nitrate", "nitratos": "nitrate",
	"oxigeno": "oxygen", "oxigeno_disuelto": "oxygen", "alcalinidad": "alkalinity", "dureza": "hardness", "conductividad": "conductivity",
	"salinidad": "salinity", "hierro": "iron", "fosfato": "phosphate", "potasio": "potassium", "calcio": "calcium", "magnesio": "magnesium",
	"alimento": "feed", "pienso": "feed", "muertos": "deaths", "muertes": "deaths", "mortalidad": "deaths",
	"notas": "notes", "observaciones": "notes",
}

// inEnglish is a header's name with its longest Spanish beginning in English.
func inEnglish(name string) string {
	plain, _, err := transform.String(transform.Chain(norm.NFD, runes.Remove(runes.In(unicode.Mn)), norm.NFC), name)
	if err != nil {
		return name
	}
	parts, as := spaced(name), spaced(plain)
	for n := len(as); n > 0 && len(parts) == len(as); n-- {
		if english, ok := spanish[strings.ToLower(strings.Join(as[:n], "_"))]; ok {
			return strings.Join(append([]string{english}, parts[n:]...), " ")
		}
	}
	return name
}

func spaced(name string) []string {
	return strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '_' })
}
