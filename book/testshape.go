package book

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"wetside/trade/quantity"
)

// A measure is how a test's figure is written.
type measure struct {
	read    func(text string, o Ounce) (float64, error)
	write   func(float64) string
	bounded bool // under, over and a range may be said
	against bool // a second time may stand beside it
}

// shape is what can be said of a test.
type shape struct {
	figure         *measure
	passed, failed []string // words, the first is the one that is written
	examples       []string
}

// shapeOf returns the shape of a test, false for none of ours.
func shapeOf(t Test) (shape, bool) {
	passed, failed := []string{"passed"}, []string{"failed"}
	switch t {
	case SilverStrip:
		return shape{figure: grams("g/L", true), examples: []string{"1 g/L", "under 0.5 g/L", "over 3 g/L", "0.5 to 1 g/L"}}, true
	case ClearingTime:
		return shape{figure: seconds(), examples: []string{"50 s against 30 s", "50 s", "over 5 min"}}, true
	case IndicatorTest:
		return shape{passed: []string{"not turned", "passed"}, failed: []string{"turned", "failed"}}, true
	case PHPaper:
		return shape{figure: pH(), examples: []string{"5.5", "5 to 5.5", "over 6"}}, true
	case DropTest:
		return shape{passed: append(passed, "clear"), failed: append(failed, "cloudy")}, true
	case SilverDrop:
		return shape{passed: append(passed, "no stain"), failed: append(failed, "stain")}, true
	case HypoDrop:
		return shape{
			figure: grams("g/m2", true), examples: []string{"under 0.01 g/m2", "0.03 g/m2"},
			passed: append(passed, "no stain"), failed: append(failed, "stain"),
		}, true
	case LightTest:
		return shape{figure: seconds(), examples: []string{"90 s against 60 s"}, passed: append(passed, "as dark"), failed: append(failed, "paler")}, true
	case Thermometer:
		return shape{figure: celsius(), examples: []string{"20.5 °C", "68 °F"}}, true
	case LevelTest:
		return shape{figure: millilitres(), examples: []string{"1.8 L", "900 mL", "60 fl oz"}}, true
	}
	return shape{}, false
}

func grams(unit string, bounded bool) *measure {
	return &measure{
		bounded: bounded,
		read: func(text string, _ Ounce) (float64, error) {
			text = strings.ReplaceAll(strings.ReplaceAll(text, "g/m²", "g/m2"), "g/l", "g/L")
			number, ok := strings.CutSuffix(text, unit)
			if !ok {
				return 0, &quantity.ReadError{Text: quantity.Shown(text), Want: unit, Why: quantity.WhyNoUnit, Near: unit}
			}
			return upTo(number, unit, 100)
		},
		write: func(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) + " " + unit },
	}
}

func pH() *measure {
	return &measure{
		bounded: true,
		read: func(text string, _ Ounce) (float64, error) {
			return upTo(strings.TrimPrefix(strings.TrimPrefix(text, "pH "), "ph "), "pH", 14)
		},
		write: func(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) },
	}
}

// upTo reads a number from 0 to most.
func upTo(text, want string, most float64) (float64, error) {
	r, err := quantity.ReadRatio(strings.TrimSpace(text))
	if err != nil {
		return 0, err
	}
	if f := r.Float(); f >= 0 && f <= most {
		return f, nil
	}
	return 0, quantity.NewReadError(text, 0, want, quantity.WhyTooLarge)
}

func seconds() *measure {
	return &measure{
		bounded: true, against: true,
		read: func(text string, _ Ounce) (float64, error) {
			d, err := quantity.ReadDuration(text)
			if err == nil && d <= 0 {
				err = quantity.NewReadError(text, 0, "duration", quantity.WhyNotPositive)
			}
			return d.Seconds(), err
		},
		write: func(f float64) string { return quantity.Duration(time.Duration(math.Round(f * float64(time.Second)))) },
	}
}

func celsius() *measure {
	return &measure{
		read: func(text string, _ Ounce) (float64, error) {
			c, err := quantity.ReadCelsius(text)
			if err == nil && (c < -10 || c > 100) {
				err = quantity.NewReadError(text, 0, "temperature", quantity.WhyTooLarge)
			}
			return float64(c), err
		},
		write: func(f float64) string { return fmt.Sprint(quantity.Celsius(f)) },
	}
}

func millilitres() *measure {
	return &measure{
		read: func(text string, o Ounce) (float64, error) {
			v, err := quantity.ReadVolume(text, o.Quantity())
			return v.ML(), err
		},
		write: func(f float64) string {
			v, err := quantity.VolumeOfML(f)
			if err != nil {
				return ""
			}
			return v.String()
		},
	}
}
