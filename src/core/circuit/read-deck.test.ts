import { expect, test } from "vitest";
import { readDeck } from "./read-deck.ts";

function elements(text: string) {
  const deck = readDeck(text, "d.cir");
  if (!deck.ok) throw new Error(JSON.stringify(deck.issues));
  return deck.value.elements;
}

function issues(text: string): string[] {
  const deck = readDeck(text, "d.cir");
  return (deck.ok ? deck.warnings : deck.issues).map(({ code, file, line }) => `${file}:${line} ${code}`);
}

test("values take the ten suffixes, a unit behind them, and exponents, each as the double nearest to what is written", () => {
  const written = "1f 2p 3n 4u 5m 6 7k 8meg 9g 10T 4.7kOhm 100nF 2.5e3 1e-3k 10.1321183u .5 5.".split(" ");
  const deck = `values\n${written
    .map((value, n) => `r${n} a b ${value}`)
    .join("\n")
    .replaceAll("r0 a b 1f", "c0 a b 1f")
    .replace("r1 a b 2p", "c1 a b 2p")
    .replace("r3 a b 4u", "c3 a b 4u")}`;
  expect(elements(deck).map(({ value }) => value)).toEqual([
    1e-15, 2e-12, 3e-9, 4e-6, 5e-3, 6, 7e3, 8e6, 9e9, 1e13, 4700, 100e-9, 2500, 1, 10.1321183e-6, 0.5, 5,
  ]);
});

test("the title is never a card, comments and analysis cards say nothing, + continues over a comment, .end ends", () => {
  const deck =
    "R9 title 0 5\r\n* comment\r\nr1 a\r\n* between\r\n+ b\r\n+ 10k ; ten thousand\r\n.op\n.control\nrun\n.endc\n.ac lin 1 50 50\nC1 b 0 1n $ one\n.END\nq1 is past the end\n";
  expect(elements(deck).map(({ name, a, b, value, line }) => [name, a, b, value, line])).toEqual([
    ["r1", "a", "b", 10000, 3],
    ["C1", "b", "0", 1e-9, 12],
  ]);
  expect(issues(deck)).toEqual(["d.cir:1 deck.title.card"]);
});

test("a source has a DC value, an AC magnitude (1 unless given) and a phase, in either order", () => {
  const deck = "sources\nv1 a 0 5\nv2 a 0 DC 5 AC 230 -120\nv3 a 0 ac 2 dc 3\nI4 a 0 AC\ni5 a 0 1m AC 2";
  expect(elements(deck).map(({ kind, value, ac }) => [kind, value, ac?.magnitude, ac?.degrees])).toEqual([
    ["V", 5, undefined, undefined],
    ["V", 5, 230, -120],
    ["V", 3, 2, 0],
    ["I", 0, 1, 0],
    ["I", 1e-3, 2, 0],
  ]);
});

test("subcircuits flatten, one in another, with node 0 shared, inner names behind a dot, and definitions where they are seen", () => {
  const deck = `nested
.subckt Pair p q
.subckt inner a b
r1 a m 1
r2 m b 2
c1 m 0 1n
.ends inner
x1 p n inner
x2 n q INNER
.ends
xa in 0 pair
xb in out pair
r1 out 0 5`;
  expect(elements(deck).map(({ name, a, b }) => `${name} ${a} ${b}`)).toEqual([
    "xa.x1.r1 in xa.x1.m",
    "xa.x1.r2 xa.x1.m xa.n",
    "xa.x1.c1 xa.x1.m 0",
    "xa.x2.r1 xa.n xa.x2.m",
    "xa.x2.r2 xa.x2.m 0",
    "xa.x2.c1 xa.x2.m 0",
    "xb.x1.r1 in xb.x1.m",
    "xb.x1.r2 xb.x1.m xb.n",
    "xb.x1.c1 xb.x1.m 0",
    "xb.x2.r1 xb.n xb.x2.m",
    "xb.x2.r2 xb.x2.m out",
    "xb.x2.c1 xb.x2.m 0",
    "r1 out 0",
  ]);
});

test("every fault of a deck is told in one go, each with its line", () => {
  const deck = `bad
+ 5
r1 a b
r2 a b 10 tc=1
r3 a b -5
r4 a b ten
c1 a b 1e30
d1 a b model
v1 a b sin(0 325 50)
v2 a b 5 ac 230 pulse(0 1)
.param x=1
.include other.cir
.ends
x1 a b nowhere
R4 a b 1
v3 a b
.subckt loop a b
x9 a b loop
.ends wrong
xl a b loop
xl2 a loop
.subckt p a a
.ends
.subckt q a b w=1
r a b 1
.ends
r5 (a b) 10
x5 a b p w=3
`;
  expect(issues(deck).sort()).toEqual(
    [
      "d.cir:2 deck.continuation.first",
      "d.cir:3 deck.card.form",
      "d.cir:4 deck.card.form",
      "d.cir:5 deck.value",
      "d.cir:6 deck.value",
      "d.cir:7 deck.value",
      "d.cir:8 deck.card.unknown",
      "d.cir:9 deck.value",
      "d.cir:10 deck.source.form",
      "d.cir:11 deck.card.unknown",
      "d.cir:12 deck.card.unknown",
      "d.cir:13 deck.ends.stray",
      "d.cir:14 deck.subckt.unknown",
      "d.cir:15 deck.name.twice",
      "d.cir:16 deck.card.form",
      "d.cir:18 deck.subckt.loop",
      "d.cir:19 deck.ends.name",
      "d.cir:21 deck.subckt.ports",
      "d.cir:22 deck.subckt.port",
      "d.cir:24 deck.subckt.form",
      "d.cir:27 deck.name",
      "d.cir:28 deck.name",
    ].sort(),
  );
});

test("nothing, a title alone, 3 MB of text and subcircuits that multiply to 2^40 elements are refused at once", () => {
  expect(issues("")).toEqual(["d.cir:1 deck.empty"]);
  expect(issues("only a title\n.op\n")).toEqual(["d.cir:1 deck.empty"]);
  expect(issues(`long\n${"* nothing at all\n".repeat(200_000)}r1 a b 1\n`)).toEqual(["d.cir:1 deck.too-large"]);
  const doubling = Array.from({ length: 40 }, (_, n) => `.subckt s${n} a b\nx1 a m s${n + 1}\nx2 m b s${n + 1}\n.ends`);
  const bomb = `bomb\n${doubling.join("\n")}\n.subckt s40 a b\nr1 a b 1\n.ends\nx0 a b s0\n`;
  expect(issues(bomb).map((issue) => issue.split(" ")[1])).toEqual(["deck.too-many"]);
});
