"""A terminal with a person before it: starts a command on a pseudo terminal, does what it is told
step by step, and says what came of it as JSON.

terminal.py COLUMNS LINES STEP... -- COMMAND...
STEP: see=TEXT  type=TEXT  size=COLUMNSxLINES  signal=NAME
"""
import fcntl
import json
import os
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time

PATIENCE_S = 40
SEQUENCE = re.compile(r"\x1b\[\??[0-9;]*[A-Za-z]|[^\x1b]|\x1b", re.S)


class Screen:
    """What a person sees, and whether anything was drawn outside of the window."""

    def __init__(self, columns, lines):
        self.modes = set()
        self.outside = []
        self.resize(columns, lines)

    def resize(self, columns, lines):
        self.columns, self.lines = columns, lines
        self.rows = {}
        self.row = self.column = 0

    def take(self, text):
        for piece in SEQUENCE.findall(text):
            if len(piece) > 1:
                self.obey(piece[2:-1], piece[-1])
            elif piece == "\r":
                self.column = 0
            elif piece == "\n":
                self.row += 1
            else:
                self.draw(piece)

    def obey(self, words, letter):
        if letter == "H":
            self.row, self.column = (int(n) - 1 for n in words.split(";"))
        elif letter == "K":
            self.rows[self.row] = {}
        elif letter == "J":
            self.rows = {}
        elif letter == "h":
            self.modes.add(words)
        elif letter == "l":
            self.modes.discard(words)

    def draw(self, sign):
        if self.column >= self.columns or self.row >= self.lines:
            self.outside.append([self.row, self.column, sign])
        self.rows.setdefault(self.row, {})[self.column] = sign
        self.column += 1

    def text(self):
        return "\n".join(
            "".join(row.get(c, " ") for c in range(self.columns)).rstrip()
            for row in (self.rows.get(r, {}) for r in range(self.lines)))


def main():
    split = sys.argv.index("--")
    columns, lines = int(sys.argv[1]), int(sys.argv[2])
    person, line = os.openpty()
    resize(person, columns, lines)
    before = settings(line)
    command = subprocess.Popen(
        sys.argv[split + 1:], stdin=line, stdout=line, stderr=line,
        env=dict(os.environ, TERM="xterm-256color", LC_ALL="C.UTF-8"),
        # a shell that runs the tests in the background has them ignore Ctrl-C
        preexec_fn=lambda: (os.setsid(), fcntl.ioctl(line, termios.TIOCSCTTY, 0),
                            signal.signal(signal.SIGINT, signal.SIG_DFL)))
    screen = Screen(columns, lines)
    seen = []
    for step in sys.argv[3:split]:
        word, _, value = step.partition("=")
        if word == "see":
            end = time.time() + PATIENCE_S
            while value not in screen.text():
                if time.time() > end or not look(person, screen) and command.poll() is not None:
                    fail("never seen: " + value, screen)
            seen.append(screen.text())
        elif word == "type":
            os.write(person, value.encode())
        elif word == "size":
            columns, lines = map(int, value.split("x"))
            resize(person, columns, lines)
            screen.resize(columns, lines)
        elif word == "signal":
            command.send_signal(getattr(signal, value))
    end = time.time() + PATIENCE_S
    while command.poll() is None and time.time() < end:
        look(person, screen)
    while look(person, screen):
        pass
    after = settings(line)
    print(json.dumps({
        "code": command.poll(),
        "as_before": before == after,
        "modes": sorted(screen.modes),
        "outside": screen.outside,
        "seen": seen}))


def look(person, screen):
    """Takes what has come within a moment; false when nothing has."""
    if not select.select([person], [], [], 0.1)[0]:
        return False
    screen.take(TEXT.decode(os.read(person, 65536)))
    return True


class Utf8:
    """Complains about anything that is no UTF-8; a character may come in two pieces."""

    def __init__(self):
        import codecs
        self.decoder = codecs.getincrementaldecoder("utf-8")("strict")

    def decode(self, data):
        return self.decoder.decode(data)


TEXT = Utf8()


def resize(person, columns, lines):
    fcntl.ioctl(person, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))


def settings(line):
    """All that stty knows of it but for its size."""
    every = subprocess.run(["stty", "-a"], stdin=line, capture_output=True, text=True).stdout
    return re.sub(r"rows \d+; columns \d+;", "", every)


def fail(why, screen):
    sys.exit(why + "\n" + screen.text())


if __name__ == "__main__":
    main()
