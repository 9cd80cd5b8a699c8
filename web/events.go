package web

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"strings"
	"time"

	"wetside/access"
)

// An event is what is written to the log of who came in, who did not, and what was changed of it. docs/security.md lists them. A line has
// the request's number, where it came from, who asked (a role, and the ids of the person and the key, never a name), and no secret.
type event string

// The events.
const (
	signedIn       event = "signed in"
	signedOut      event = "signed out"
	askedAgain     event = "passphrase asked again"
	signedOutAll   event = "signed out everywhere"
	secondOn       event = "second step turned on"
	secondOff      event = "second step turned off"
	passphraseNew  event = "passphrase changed"
	keyholderFirst event = "first keyholder made"
	keyholderMade  event = "keyholder made"
	keyholderAway  event = "keyholder withdrawn"
	keyMade        event = "key made"
	keyTaken       event = "key taken up"
	keyAway        event = "key withdrawn"
	deviceBecame   event = "device made part of the room"
	refused        event = "refused"
	joinedIn       event = "joined an evening"
)

// events are all of them; docs/security.md lists them, held to it by a test.
func events() []event {
	return []event{
		signedIn, signedOut, askedAgain, signedOutAll, secondOn, secondOff, passphraseNew, keyholderFirst, keyholderMade, keyholderAway, keyMade, keyTaken, keyAway, deviceBecame,
		refused, joinedIn,
	}
}

// asking is what the log tells of a request.
type asking struct{ id, from string }

type askingKey struct{}

// withAsking lets what is done for a request be told with its number.
func withAsking(ctx context.Context, r *http.Request, id string) context.Context {
	return context.WithValue(ctx, askingKey{}, asking{id, access.Address(r)})
}

// tell writes an event to the log.
func (e event) tell(ctx context.Context, log *slog.Logger, level slog.Level, more ...slog.Attr) {
	a, _ := ctx.Value(askingKey{}).(asking)
	who := access.From(ctx)
	all := append([]slog.Attr{
		slog.String("request", a.id), slog.String("from", a.from), slog.String("role", who.Role.String()), slog.String("person", who.Person), slog.String("key", who.Key),
	}, more...)
	log.LogAttrs(ctx, level, string(e), all...)
}

// turnedAway tells of a request that is not answered as it asks. The path is told by its pattern: in itself it may carry an evening's code.
func (s *server) turnedAway(r *http.Request, id, why string) {
	ctx := r.Context()
	if _, has := ctx.Value(askingKey{}).(asking); !has {
		ctx = withAsking(ctx, r, id)
	}
	shown := access.Show(r)
	refused.tell(ctx, s.Log, slog.LevelWarn, slog.String("why", why), slog.String("method", r.Method), slog.String("path", toldPath(r)),
		slog.Bool("showed", shown.Token != "" || shown.Joined != ""))
}

// turnsAway reports whether a status says that somebody may not, or sent more than is taken.
func turnsAway(code int) bool {
	return code == http.StatusUnauthorized || code == http.StatusForbidden || code == http.StatusRequestEntityTooLarge || code == http.StatusTooManyRequests
}

// toldPath is the path of a request as a log may have it.
func toldPath(r *http.Request) string {
	if strings.HasPrefix(r.URL.Path, "/join/") {
		return "/join/{code}"
	}
	return r.URL.Path
}

// watched tells the log what is done at the doors.
type watched struct {
	Doors
	log *slog.Logger
}

// told writes an event, with why it did not come about.
func (d watched) told(ctx context.Context, e event, err error, more ...slog.Attr) {
	limited, wrong := errors.AsType[*access.LimitedError](err)
	switch {
	case err == nil:
		e.tell(ctx, d.log, slog.LevelInfo, append(more, slog.String("result", "ok"))...)
	case wrong:
		e.tell(ctx, d.log, slog.LevelWarn, append(more, slog.String("result", "tried too often"), slog.Duration("wait", limited.Wait))...)
	case errors.Is(err, access.ErrWrong):
		e.tell(ctx, d.log, slog.LevelWarn, append(more, slog.String("result", "wrong"))...)
	default:
		e.tell(ctx, d.log, slog.LevelWarn, append(more, slog.String("result", "failed"), slog.Any("error", err))...)
	}
}

// about is the keyholder whom a name that was typed means; empty where there is none. It is looked up whether it fits or not.
func (d watched) about(ctx context.Context, name string) slog.Attr {
	id := ""
	all, _ := d.Keyholders(ctx)
	for _, k := range all {
		if access.Signs(k.Name) == access.Signs(name) {
			id = k.Person
		}
	}
	return slog.String("about", id)
}

// MakeFirst makes the first keyholder.
func (d watched) MakeFirst(ctx context.Context, word, name, phrase, address string) (string, error) {
	token, err := d.Doors.MakeFirst(ctx, word, name, phrase, address)
	d.told(ctx, keyholderFirst, err, slog.String("by", "one-time word or at home"), d.about(ctx, name))
	return token, err
}

// MakeKeyholder makes another.
func (d watched) MakeKeyholder(ctx context.Context, name, phrase string) error {
	err := d.Doors.MakeKeyholder(ctx, name, phrase)
	d.told(ctx, keyholderMade, err, d.about(ctx, name))
	return err
}

// WithdrawKeyholder takes one away.
func (d watched) WithdrawKeyholder(ctx context.Context, person string, last bool) error {
	err := d.Doors.WithdrawKeyholder(ctx, person, last)
	d.told(ctx, keyholderAway, err, slog.String("about", person))
	return err
}

// SignIn lets a keyholder in.
func (d watched) SignIn(ctx context.Context, name, passphrase, code, address, was string) (string, error) {
	token, err := d.Doors.SignIn(ctx, name, passphrase, code, address, was)
	d.told(ctx, signedIn, err, slog.String("by", "passphrase"), d.about(ctx, name))
	return token, err
}

// SignOut ends the sign-in of this device.
func (d watched) SignOut(ctx context.Context, who access.Who) error {
	err := d.Doors.SignOut(ctx, who)
	d.told(ctx, signedOut, err)
	return err
}

// Prove asks for a passphrase once more.
func (d watched) Prove(ctx context.Context, who access.Who, passphrase, address string) error {
	err := d.Doors.Prove(ctx, who, passphrase, address)
	d.told(ctx, askedAgain, err)
	return err
}

// SignOutAll ends all sign-ins of whoever asks.
func (d watched) SignOutAll(ctx context.Context, who access.Who) error {
	err := d.Doors.SignOutAll(ctx, who)
	d.told(ctx, signedOutAll, err)
	return err
}

// MakeSecond turns a second step on.
func (d watched) MakeSecond(ctx context.Context, who access.Who, passphrase, secret, code, address string) ([]string, error) {
	words, err := d.Doors.MakeSecond(ctx, who, passphrase, secret, code, address)
	if errors.Is(err, access.ErrCode) {
		d.told(ctx, secondOn, access.ErrWrong)
	} else {
		d.told(ctx, secondOn, err)
	}
	return words, err
}

// DropSecond turns it off.
func (d watched) DropSecond(ctx context.Context, who access.Who, passphrase, address string) error {
	err := d.Doors.DropSecond(ctx, who, passphrase, address)
	d.told(ctx, secondOff, err)
	return err
}

// ChangePassphrase gives whoever asks a new one.
func (d watched) ChangePassphrase(ctx context.Context, who access.Who, old, fresh, address string) (string, error) {
	token, err := d.Doors.ChangePassphrase(ctx, who, old, fresh, address)
	d.told(ctx, passphraseNew, err)
	return token, err
}

// MakeKey makes a key of a role.
func (d watched) MakeKey(ctx context.Context, who access.Who, role access.Role, name string, lasts time.Duration) (access.KeyMade, error) {
	made, err := d.Doors.MakeKey(ctx, who, role, name, lasts)
	d.told(ctx, keyMade, err, slog.String("for", role.String()), slog.String("about", made.ID))
	return made, err
}

// Become makes the device of whoever asks a wall or a sink.
func (d watched) Become(ctx context.Context, who access.Who, role access.Role, name string) (string, error) {
	token, err := d.Doors.Become(ctx, who, role, name)
	d.told(ctx, deviceBecame, err, slog.String("for", role.String()))
	return token, err
}

// Take finds what a token that was typed in is for.
func (d watched) Take(ctx context.Context, token, address string) (access.Role, bool, error) {
	role, ok, err := d.Doors.Take(ctx, token, address)
	if err == nil && !ok {
		d.told(ctx, keyTaken, access.ErrWrong, slog.String("by", "key"))
	} else {
		d.told(ctx, keyTaken, err, slog.String("by", "key"), slog.String("for", role.String()))
	}
	return role, ok, err
}

// Withdraw takes a key away.
func (d watched) Withdraw(ctx context.Context, id string) error {
	err := d.Doors.Withdraw(ctx, id)
	d.told(ctx, keyAway, err, slog.String("about", id))
	return err
}
