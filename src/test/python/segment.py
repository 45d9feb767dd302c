"""Reads a segment of leat: src/docs/segment.md as a program. Prints each input as one line."""
import struct, sys, zlib

M = (1 << 64) - 1
def wrap(x): x &= M; return x - (1 << 64) if x >> 63 else x

class Bytes:
    def __init__(self, data): self.data, self.at = data, 0
    def byte(self): self.at += 1; return self.data[self.at - 1]
    def number(self):
        value = shift = 0
        while True:
            group = self.byte(); value |= (group & 127) << shift; shift += 7
            if group < 128: return value
    def signed(self): n = self.number(); return wrap(n >> 1 ^ -(n & 1))
    def text(self):
        units = [self.number() for _ in range(self.number())]
        return b''.join(u.to_bytes(2, 'big') for u in units).hex()
    def stream(self):
        length, deflated = self.number(), self.number()
        part = self.data[self.at:self.at + (deflated or length)]; self.at += deflated or length
        return Bytes(zlib.decompress(part, -15) if deflated else part)

def double(n):
    n = n ^ (n >> 63 & (1 << 63) - 1)
    return struct.unpack('>d', struct.pack('>q', n))[0]

class Channel:
    def __init__(self, body, base):
        self.code, self.way, self.usual, self.grid = body.byte(), body.byte(), body.signed(), base
        self.times, self.qualities, self.runs, self.claims, self.values = (body.stream() for _ in range(5))
        self.left = self.quality = self.run = self.claim = self.sum = 0
        self.claiming, self.first = True, True
        if self.values.data:
            self.how, self.level = self.values.byte(), 0
            if self.how == 100:
                levels = [self.values.signed() for _ in range(self.values.number())]
                for i in range(1, len(levels)): levels[i] = wrap(levels[i] + levels[i - 1])
                self.levels = levels
            self.weight = self.values.byte()
    def value(self):
        w = self.weight
        n = wrap((wrap(self.sum + (1 << w - 1 if w else 0)) >> w) + self.values.signed())
        self.sum = wrap(n << w) if self.first else wrap(self.sum + n - (self.sum >> w)); self.first = False
        return double(self.levels[n]) if self.how == 100 else double(n) if self.how == 101 else n / 10 ** self.how
    def reading(self, last, unit):
        r = self.times.signed()
        if self.way == 0: time = last + self.usual + r
        else:
            time = self.grid + self.usual + r; self.grid += self.usual
            if abs(r) > abs(self.usual) // 8: self.grid += r
        while not self.left: self.left, self.quality = self.qualities.number(), self.qualities.byte()
        self.left -= 1
        value = self.value() if self.quality < 10 else 0.0
        while not self.run: self.run, self.claiming = self.runs.number(), not self.claiming
        self.run -= 1
        if self.claiming: self.claim = wrap(self.claim + self.claims.signed())
        claimed = wrap(time * unit + self.claim) if self.claiming else ''
        print(self.code, time * unit, struct.pack('>d', value).hex(), self.quality, claimed, sep=',')
        return time

data = open(sys.argv[1], 'rb').read()
assert data[:5] == b'leat\x01' and zlib.crc32(data[:-4]) == int.from_bytes(data[-4:], 'big')
body = Bytes(data[5:-4])
readings, events, unit, base = body.number(), body.number(), body.number(), body.signed()
order, event = body.stream(), body.stream()
channels = {c.code: c for c in (Channel(body, base) for _ in range(body.number()))}
guess, code, right, last, tick = {}, None, order.number(), base, base * unit // 1000000
for left in [None] * events + [readings]:
    for _ in range(event.number() if left is None else readings):
        readings -= 1
        if right: right -= 1; now = guess[code]
        else: now = order.byte(); right = order.number()
        guess[code], code = now, now
        last = channels[code].reading(last, unit)
    if left is not None: break
    kind = event.number()
    if kind == 100: tick += 1 + event.signed(); print(100, tick * 1000000, sep=','); continue
    at = wrap(base * unit + event.signed())
    if kind == 110: print(110, at, wrap(base * unit + event.signed()), sep=',')
    elif kind == 140: print(140, at, event.text(), event.text(), sep=',')
    elif kind < 300: print(kind, at, event.text(), sep=',')
    else: print(kind, at, sep=',')
