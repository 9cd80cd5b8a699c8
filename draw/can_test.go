package draw_test

import (
	"errors"
	"testing"

	"wetside/draw"
	"wetside/draw/scene"
	"wetside/trade/quantity"
)

func TestCan(t *testing.T) {
	litre := quantity.Litre
	say := func(in string) draw.CanWords {
		return draw.CanWords{Label: "grey can: " + in, Name: "grey can", Number: "20", Unit: "L", Stop: "full", In: in}
	}
	for name, c := range map[string]draw.Can{
		"can":       {Holds: 25 * litre, In: 14 * litre, Mark: 20 * litre, Say: say("14 L")},
		"can empty": {Holds: 25 * litre, Mark: 20 * litre, Say: say("")},
		"can full":  {Holds: 25 * litre, In: 20 * litre, Mark: 20 * litre, Say: say("20 L")},
		"can over":  {Holds: 25 * litre, In: 31 * litre, Mark: 20 * litre, Say: say("31 L")},
	} {
		t.Run(name, func(t *testing.T) { checkPicture(t, name, c) })
	}
	if _, err := (draw.Can{}).Scene(scene.Light); !errors.Is(err, draw.ErrModel) {
		t.Errorf("a can that holds nothing: %v", err)
	}
	if _, err := (draw.Can{}).Text(draw.TextOptions{}); !errors.Is(err, draw.ErrModel) {
		t.Errorf("a can that holds nothing, as text: %v", err)
	}
}
