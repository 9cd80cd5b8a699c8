// Package browsertest drives the pages in a real Chromium: one browser for a test binary, one browser context for a test.
// It finds things as a person does, by role and name, waits for what is asserted, and fails on whatever the browser
// complains of: console errors, broken policies, answers of 400 and above that nobody asked for.
//
// It is the only importer of chromedp. Where there is no Chromium a test is skipped, and fails when CI=true. What went
// wrong is kept as a picture and as HTML in the test's artifact folder (go test -artifacts).
package browsertest
