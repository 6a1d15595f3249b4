/**
 * What stands beyond doubt in a design file with mistakes in its middle, by the lines that the writer sets, each set in by its depth. A line that
 * cannot be read is one entry if it is one slip away from one and the line behind it stands where the next entry must; the entry is left out.
 * Where that cannot be said, all is left out up to the next section, since only a section's place hangs on nothing before it.
 */
import { pathText } from "./json.ts";
import { formOf, formsNear, isBlank, mayStand, shown, twoLinesOf, unitOf, wordsOf, type Line } from "./line-form.ts";
import type { Repair } from "./design.ts";

export interface Mended {
  /** JSON without what is left out. */
  readonly text: string;
  readonly repairs: readonly Repair[];
}

type Path = readonly (string | number)[];

/** A record or a list that is not closed yet. */
interface Open {
  readonly path: Path;
  readonly sign: string;
  readonly entries: Map<string | number, string>;
  /** Keys that are left out: they stand once more, and nobody knows which one is meant. */
  readonly lost: Set<string | number>;
  count: number;
  /** The entry before, whose comma is not held against what follows yet. */
  last?: { readonly name: string | number; readonly line: Line; readonly at: number };
  /** Something in it is left out, and it stands whole or not at all. */
  broken: boolean;
}

/** A file with more of them is no longer one with some mistakes. */
const MOST_MISTAKES = 20;
/** A value of plain signs behind its key, and a remark: neither opens nor closes anything. */
// eslint-disable-next-line no-control-regex
const PLAIN = /^\s*(?:"[^"\\]+"\s*:[^{}[\]"\u0000-\u001f\uFFFD]*|\/\/.*)$/;

/**
 * @param standsBegun whether a record or list stands with the entries that it has; others stand whole or not at all
 * @returns the text as it is where nothing is wrong but that it ends; undefined where its lines are not the writer's
 */
export function mendLines(text: string, standsBegun: (path: Path) => boolean): Mended | undefined {
  const source = text.split("\n").map((line) => line.replace(/\r$/, ""));
  const unit = unitOf(source);
  if (unit === undefined || source[0]?.trimEnd() !== "{") return undefined;
  const lines = source.map((one, i) => ({ text: one, at: i + 1 }));
  const root = begun([], "{");
  const open = [root];
  const repairs: Repair[] = [];
  let mistakes = 0;
  let closed = false;
  let at = 1;
  let blankFrom = 1;

  while (at < lines.length && mistakes <= MOST_MISTAKES) {
    if (isBlank(lines[at]!.text)) {
      at++;
      continue;
    }
    if (closed) {
      tell("", lines[at]!.at, "something stands behind the end: left out");
      break;
    }
    const line = formOf(lines[at]!.text, unit);
    if (line && take(line)) at++;
    else if (!mend()) break;
    blankFrom = at;
  }
  if (mistakes > MOST_MISTAKES) return undefined;
  if (repairs.length === 0) return { text, repairs };
  if (!closed) {
    tell(pathText(top().path), lines.at(-1)!.at, "the file ends in the middle: whatever followed is lost");
    endAll();
  }
  return { text: textOf(root), repairs };

  function top(): Open {
    return open.at(-1)!;
  }

  function tell(path: string, place: number, says: string): void {
    repairs.push({ path, says: `line ${place}: ${says}` });
  }

  /** Takes a line that stands where it may. */
  function take(line: Line): boolean {
    const inside = top();
    if (line.kind === "close") {
      if (line.depth !== open.length - 1) return false;
      const fits = line.body === (inside.sign === "{" ? "}" : "]");
      if (!fits) {
        mistakes++;
        tell(pathText(inside.path), lines[at]!.at, `${line.body} closes it: taken as it was opened`);
        if (inside.sign === "[") lose(inside);
      }
      settle(inside, "close");
      shut(line, lines[at]!.at);
      return true;
    }
    if (line.depth !== open.length) return false;
    if (isMisplaced(line) && !inside.broken) {
      if (!isOpenedWrong()) return false;
      mistakes++;
      inside.broken = true;
    }
    settle(inside, "entry");
    const name = inside.sign === "{" ? line.key : inside.count;
    inside.count++;
    const path = [...inside.path, name ?? ""];
    if (line.kind === "open") open.push(begun(path, line.body));
    else put(inside, name ?? "", line, lines[at]!.at);
    return true;
  }

  function put(inside: Open, name: string | number, line: Line, place: number): void {
    inside.last = { name, line, at: place };
    if (inside.entries.has(name) || inside.lost.has(name)) {
      mistakes++;
      tell(pathText([...inside.path, name]), place, "it stands there twice: both are left out");
      inside.entries.delete(name);
      inside.lost.add(name);
      lose(inside);
    } else inside.entries.set(name, line.body);
  }

  /** Holds the comma behind the last entry against what follows. Beside a comma that is wrong, a digit may be lost. */
  function settle(inside: Open, next: "entry" | "close" | "mistake"): void {
    const { last } = inside;
    delete inside.last;
    if (!last || (next === "mistake" ? last.line.comma : last.line.comma === (next === "entry"))) return;
    const path = pathText([...inside.path, last.name]);
    const isNumber = /\d$/.test(last.line.body);
    if (next !== "mistake" || isNumber) mistakes++;
    const missing = `a comma ${last.line.comma ? "too many stands" : "is missing"} behind it`;
    if (isNumber) {
      tell(path, last.at, `${missing}, where a digit may have stood: left out`);
      inside.entries.delete(last.name);
      lose(inside);
    } else if (next !== "mistake") tell(path, last.at, `${missing}: ${last.line.comma ? "taken out" : "put in"}`);
  }

  /** Something in it is left out. */
  function lose(inside: Open): void {
    if (!standsBegun(inside.path)) inside.broken = true;
  }

  /** Closes the innermost one, and puts it where it stands. */
  function shut(line: Pick<Line, "comma">, place: number): void {
    const done = open.pop()!;
    const inside = open.at(-1);
    if (!inside) {
      closed = true;
      if (line.comma) tell("", place, "a comma stands behind the end: taken out");
      return;
    }
    const name = done.path.at(-1)!;
    if (!done.broken) put(inside, name, { depth: 0, kind: "value", body: textOf(done), comma: line.comma }, place);
    else {
      tell(pathText(done.path), place, "it does not stand whole: left out");
      inside.lost.add(name);
      lose(inside);
    }
  }

  /** Ends all that is open inside the file, as if the file ended here. */
  function endAll(): void {
    settle(top(), "mistake");
    while (open.length > 1) {
      const inside = top();
      lose(inside);
      shut({ comma: true }, lines[Math.min(at, lines.length - 1)]!.at);
      delete top().last;
    }
  }

  /** Finds the way on behind lines that cannot be read, or that stand where they may not. False: the text ends in them. */
  function mend(): boolean {
    if (lines.slice(at + 1).every((one) => isBlank(one.text))) return false;
    mistakes++;
    let next = at;
    const first = formOf(lines[at]!.text, unit!);
    // A line of its own that stands wrong tells of a mistake before it.
    if (!first || isMisplaced(first)) {
      next++;
      while (next < lines.length && !formOf(lines[next]!.text, unit!)) next++;
    }
    if (next >= lines.length) return false;
    const bad = lines.slice(blankFrom, next);
    const words = bad.map((one) => one.text).join("\n");
    const near = new Set(bad.length === 0 ? [] : [words, wordsOf(bad)].flatMap((one) => [...formsNear(one, unit!)]));
    const following = formOf(lines[next]!.text, unit!)!;
    const depth = open.length;
    const place = bad.find((one) => !isBlank(one.text))?.at ?? lines[at]!.at;

    const two = bad.length === 1 && near.size === 0 ? twoLinesOf(words, areTwoLines) : undefined;
    if (two) {
      tell(pathText(top().path), place, "a line end is lost: put in");
      const head = formOf(two[0], unit!)!;
      // What stood in the line end's place may have been a digit.
      const sure = head.comma || !/\d$/.test(two[0]);
      lines.splice(blankFrom, bad.length, ...(sure ? [{ text: two[0], at: place }] : []), { text: two[1], at: place });
      if (!sure) leaveOut(two[0], place);
      at = blankFrom;
      return true;
    }
    const neutral = (): boolean => PLAIN.test(wordsOf(bad)) || near.has(`value ${depth}`);
    const closes = following.kind === "close";
    if (following.depth > depth || (closes && following.depth === depth)) {
      // The sign that opened what follows is lost, and with it what it is.
      const before = top().last;
      if (bad.length === 0 && before && !before.line.comma) {
        top().entries.delete(before.name);
        delete top().last;
        return leaveInside(next, before.name, before.at);
      }
      if (bad.length > 0 && near.has(`open ${depth}`)) {
        settle(top(), "mistake");
        return leaveInside(next, nameIn(words), place);
      }
    } else if (bad.length > 0 && (following.depth === depth || (closes && following.depth === depth - 1)) && neutral()) {
      settle(top(), "mistake");
      leaveOut(words, place);
      at = next;
      return true;
    } else if (bad.length > 0 && following.depth === depth - (closes ? 2 : 1) && depth > 1 && near.has(`close ${depth - 1}`)) {
      tell(pathText(top().path), place, "the sign that closes it is lost: put in");
      settle(top(), "mistake");
      if (top().sign === "[") lose(top());
      shut({ comma: !closes }, place);
      at = next;
      return true;
    }
    return leaveSection(place);
  }

  /** Whether a line has a key where none belongs, or none where one does. */
  function isMisplaced(line: Line): boolean {
    return line.kind !== "close" && line.depth === open.length && (line.key === undefined) === (top().sign === "{");
  }

  /** Whether the sign that opened the innermost one was another: the next line in it or at its end does not fit either. */
  function isOpenedWrong(): boolean {
    if (top() === root || top().count > 0) return false;
    for (const { text: one } of lines.slice(at + 1)) {
      const line = formOf(one, unit!);
      if (line && line.depth <= open.length)
        return isMisplaced(line) || (line.kind === "close" && !mayStand(line, open.length, top().sign));
    }
    return false;
  }

  /** Whether two texts are lines that may follow each other here. */
  function areTwoLines(first: string, second: string): boolean {
    const tail = formOf(second, unit!);
    const head = tail && formOf(first, unit!);
    if (!head || !mayStand(head, open.length, top().sign)) return false;
    if (head.kind === "open") return mayStand(tail, open.length + 1, head.body);
    return head.kind === "close"
      ? open.length > 1 && mayStand(tail, open.length - 1, open.at(-2)!.sign)
      : mayStand(tail, open.length, top().sign);
  }

  /** The key in a line, where it stands whole. */
  function nameIn(words: string): string | undefined {
    return /^\s*"([^"\\]+)"\s*:/.exec(words)?.[1];
  }

  function leaveOut(words: string, place: number): void {
    const name = top().sign === "{" ? nameIn(words) : top().count++;
    tell(pathText(name === undefined ? top().path : [...top().path, name]), place, `${shown(words)} cannot be read: left out`);
    if (name !== undefined) top().lost.add(name);
    lose(top());
  }

  /** Leaves out a record or list whose opening is lost, up to the line that closes it. */
  function leaveInside(from: number, name: string | number | undefined, place: number): boolean {
    const depth = open.length;
    let end = from;
    for (; end < lines.length; end++) {
      const line = formOf(lines[end]!.text, unit!);
      if (line && line.depth <= depth) {
        if (line.kind !== "close" || line.depth !== depth) return leaveSection(place);
        break;
      }
    }
    tell(
      pathText(name === undefined ? top().path : [...top().path, name]),
      place,
      `the sign that opens it is lost: left out up to line ${lines[Math.min(end, lines.length - 1)]!.at}`,
    );
    if (name !== undefined) top().lost.add(name);
    top().count++;
    lose(top());
    at = end + 1;
    return true;
  }

  /** Leaves out all up to the next section, or to the end of the file. */
  function leaveSection(place: number): boolean {
    const { last, entries } = top();
    if (last && !last.line.comma) entries.delete(last.name);
    const path = pathText(top().path);
    let next = at;
    for (; next < lines.length; next++) {
      const line = formOf(lines[next]!.text, unit!);
      if (line && (line.kind === "close" ? line.depth === 0 : line.depth === 1 && line.key !== undefined)) break;
    }
    const names = lines.slice(at, next).flatMap(({ text: one }) => {
      const line = formOf(one, unit!);
      return line?.depth === 2 && line.key !== undefined ? [line.key] : [];
    });
    const range = next < lines.length ? `to line ${lines[next]!.at - 1}` : "on";
    const too = names.length === 0 ? "" : `, with ${names.join(", ")}`;
    tell(path, place, `from here ${range} nothing can be read beyond doubt: left out${too}`);
    endAll();
    at = next;
    return true;
  }
}

const begun = (path: Path, sign: string): Open => ({ path, sign, entries: new Map(), lost: new Set(), count: 0, broken: false });

const textOf = ({ sign, entries }: Open): string =>
  sign === "{"
    ? `{${[...entries].map(([key, body]) => `${JSON.stringify(key)}:${body}`).join(",")}}`
    : `[${[...entries.values()].join(",")}]`;
