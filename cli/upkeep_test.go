package cli_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"

	"github.com/google/uuid"

	"wetside/internal/clibook"
)

// held runs a command while this process has the book in data open, as a server has.
func held(ctx context.Context, args []string) int {
	b, err := clibook.Open(ctx, "data", clock, uuid.NewString)
	if err != nil {
		_, _ = os.Stderr.WriteString(err.Error() + "\n")
		return 99
	}
	defer func() { _ = b.Close() }()
	cmd := exec.CommandContext(ctx, args[0], args[1:]...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, os.Stdout, os.Stderr
	err = cmd.Run()
	if exit, ok := errors.AsType[*exec.ExitError](err); ok {
		return exit.ExitCode()
	}
	if err != nil {
		return 98
	}
	return 0
}

// spoil writes other words of the same length over the first that are found in a file, as a hand on the disk does.
func spoil(file, words, others string) error {
	text, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	at := bytes.Index(text, []byte(words))
	if at < 0 || len(words) != len(others) {
		return fmt.Errorf("no %q in %s, or other length", words, file)
	}
	copy(text[at:], others)
	return os.WriteFile(file, text, 0o600)
}
