package browsertest

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// errNotThere says that the page has no such thing yet.
var errNotThere = errors.New("not there")

// wait tries until it goes well or patience ends; the last error is returned.
func (t *Tab) wait(what string, try func(ctx context.Context, x *chromedp.Target) error) error {
	ctx, cancel := context.WithTimeout(t.ctx, patience)
	defer cancel()
	for {
		err := chromedp.Do(ctx, chromedp.Func(try))
		if err == nil {
			return nil
		}
		select {
		case <-ctx.Done():
			return fmt.Errorf("%s: %w", what, err)
		case <-time.After(20 * time.Millisecond):
		}
	}
}

// find returns the n-th thing (from 0) of a role and a name, as the browser tells them to who cannot see the page.
func find(ctx context.Context, x *chromedp.Target, role, name string, n int) (cdp.BackendNodeID, error) {
	doc, err := cdp.Call(ctx, x, dom.GetDocument, dom.GetDocumentParams{})
	if err != nil {
		return 0, err
	}
	found, err := cdp.Call(ctx, x, accessibility.QueryAXTree, accessibility.QueryAXTreeParams{
		NodeID: doc.Root.NodeID, AccessibleName: name, Role: role,
	})
	if err != nil {
		return 0, err
	}
	for _, node := range found.Nodes {
		if node.Ignored || node.BackendDOMNodeID == 0 {
			continue
		}
		if n == 0 {
			return node.BackendDOMNodeID, nil
		}
		n--
	}
	return 0, errNotThere
}

// middle scrolls a node into view and returns its middle in CSS pixels.
func middle(ctx context.Context, x *chromedp.Target, id cdp.BackendNodeID) (mx, my float64, err error) {
	if _, err = cdp.Call(ctx, x, dom.ScrollIntoViewIfNeeded, dom.ScrollIntoViewIfNeededParams{BackendNodeID: id}); err != nil {
		return 0, 0, err
	}
	quads, err := cdp.Call(ctx, x, dom.GetContentQuads, dom.GetContentQuadsParams{BackendNodeID: id})
	if err != nil {
		return 0, 0, err
	}
	if len(quads.Quads) == 0 {
		return 0, 0, errNotThere
	}
	q := quads.Quads[0]
	return (q[0] + q[2] + q[4] + q[6]) / 4, (q[1] + q[3] + q[5] + q[7]) / 4, nil
}

// ClickNth clicks the n-th thing (from 0) of a role and a name with the mouse.
func (t *Tab) ClickNth(role, name string, n int) error {
	return t.wait(fmt.Sprintf("clicking %s %q", role, name), func(ctx context.Context, x *chromedp.Target) error {
		id, err := find(ctx, x, role, name, n)
		if err != nil {
			return err
		}
		mx, my, err := middle(ctx, x, id)
		if err != nil {
			return err
		}
		_, err = chromedp.MouseClickXY(mx, my)(ctx, x)
		return err
	})
}

// Click clicks a thing: a link, button, checkbox by its name.
func (t *Tab) Click(role, name string) error { return t.ClickNth(role, name, 0) }

// Fill types into the text field of a label in place of what was there.
func (t *Tab) Fill(label, text string) error {
	return t.set("textbox", label, "function(v){this.focus();this.value=v;this.dispatchEvent(new Event('input',{bubbles:true}))}", text)
}

// Choose picks an option of the list of a label by what the reader sees.
func (t *Tab) Choose(label, option string) error {
	return t.set("combobox", label, `function(v){
		for(const o of this.options){if(o.text===v){this.value=o.value;this.dispatchEvent(new Event('change',{bubbles:true}));return}}
		throw new Error('no option '+v)}`, option)
}

func (t *Tab) set(role, label, function, value string) error {
	return t.wait(fmt.Sprintf("filling %s %q", role, label), func(ctx context.Context, x *chromedp.Target) error {
		id, err := find(ctx, x, role, label, 0)
		if err != nil {
			return err
		}
		node, err := cdp.Call(ctx, x, dom.ResolveNode, dom.ResolveNodeParams{BackendNodeID: id})
		if err != nil {
			return err
		}
		_, err = chromedp.CallFunctionOn[chromedp.Void](function, func(p *runtime.CallFunctionOnParams) {
			p.ObjectID = node.Object.ObjectID
		}, value)(ctx, x)
		return err
	})
}

// See waits until a text can be seen on the page.
func (t *Tab) See(text string) error {
	return t.wait(fmt.Sprintf("seeing %q", text), func(ctx context.Context, x *chromedp.Target) error {
		all, err := chromedp.Evaluate[string](visibleText)(ctx, x)
		if err != nil {
			return err
		}
		if !containsFolded(all, text) {
			return errNotThere
		}
		return nil
	})
}

// Reach waits until the page is at a path.
func (t *Tab) Reach(path string) error {
	return t.wait("reaching "+path, func(ctx context.Context, x *chromedp.Target) error {
		at, err := chromedp.Evaluate[string](`document.readyState==='complete'?location.pathname:''`)(ctx, x)
		if err != nil {
			return err
		}
		if at != path {
			return fmt.Errorf("%w: at %s", errNotThere, at)
		}
		return nil
	})
}

// Text returns what can be seen on the page, white space folded.
func (t *Tab) Text() (string, error) {
	all, err := Eval[string](t, visibleText)
	return folded(all), err
}
