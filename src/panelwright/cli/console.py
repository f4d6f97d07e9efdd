"""What the command line says: answers on standard output, progress and faults on standard error."""

import json
import sys
from collections.abc import Mapping

Answer = Mapping[str, object]


class Console:
    """One run's voice. With `as_json` the answer is one JSON object and nothing else is on standard output."""

    def __init__(self, as_json: bool) -> None:
        self.as_json = as_json
        self._line_open = False
        self._told = ""

    def progress(self, done: int, total: int, what: str) -> None:
        """Where long work stands: one line that renews itself on a terminal, else a line each."""
        text = f"[{done:>{len(str(total))}}/{total}] {what}"
        if text == self._told:
            return
        self._told = text
        if sys.stderr.isatty():
            print(f"\r\x1b[K{text}", end="", file=sys.stderr, flush=True)
            self._line_open = True
        else:
            print(text, file=sys.stderr, flush=True)

    def close_line(self) -> None:
        """End the line of progress."""
        if self._line_open:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)
            self._line_open = False

    def answer(self, facts: Answer, words: str) -> None:
        """The outcome: `facts` for a program that reads, `words` for a person."""
        self.close_line()
        print(json.dumps(facts, indent=2) if self.as_json else words)

    def fault(self, sentence: str, where: str, status: int) -> None:
        """Why nothing came of it: one sentence."""
        self.close_line()
        print(f"panelwright: {one_line(sentence)}", file=sys.stderr)
        if self.as_json:
            print(json.dumps({"status": status, "error": one_line(sentence), "where": where}))


def one_line(sentence: str) -> str:
    """The sentence without line breaks, ended by a full stop."""
    joined = " ".join(sentence.split())
    return joined if joined.endswith((".", "?", "!")) else f"{joined}."
