package browsertest

import (
	_ "embed"
	"strings"
)

//go:embed audit.js
var auditScript string

const visibleText = "document.body ? document.body.innerText : ''" // a page on its way has none yet

func folded(s string) string { return strings.Join(strings.Fields(s), " ") }

func containsFolded(all, text string) bool { return strings.Contains(folded(all), folded(text)) }

// Audit measures a page and returns what falls short:
//
//   - it scrolls sideways;
//   - it has not exactly one h1;
//   - a target is lower than 44 CSS px, a key of the mix step than 72 (a link within a sentence is left out, as in
//     WCAG 2.2, 2.5.8, whose own floor is 24);
//   - text stands on its ground with less than 4.5:1, from the computed colours, by the formula of WCAG 2.2,
//     "contrast ratio" (large text, 24 px or 18.66 px bold, 3:1; of drawings, the text's fill);
//   - an input has no label;
//   - what has the focus is not marked.
func (t *Tab) Audit() ([]string, error) { return Eval[[]string](t, auditScript) }
