/** A strict reader of the XML that an SVG file is made of. It follows no link, opens nothing and knows only the five built-in entities. */
import { SvgFault } from "./fault.ts";

export interface XmlElement {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
}

const DEEPEST = 64;
const MOST_ELEMENTS = 50_000;
const NAME = /[A-Za-z_][\w.:-]*/y;
const ENTITIES: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };
const BROKEN = "Open it in a drawing program and save it as plain SVG again.";

interface Open {
  readonly name: string;
  readonly attributes: Map<string, string>;
  readonly children: XmlElement[];
}

/** The root element. Throws `SvgFault` where the text is no well-formed XML, defines entities, or is larger than the reader bears. */
export function readXml(text: string): XmlElement {
  const stack: Open[] = [];
  let root: XmlElement | undefined;
  // A field and no variable: see the reader of JSON, where Chromium 147 lost steps of one.
  const cursor = { at: text.startsWith("\uFEFF") ? 1 : 0 };
  let count = 0;

  const skipTo = (end: string, from: number, what: string): number => {
    const found = text.indexOf(end, from);
    if (found < 0) throw new SvgFault(`the file ends inside ${what}`, BROKEN);
    return found + end.length;
  };
  const name = (): string => {
    NAME.lastIndex = cursor.at;
    const found = NAME.exec(text)?.[0];
    if (found === undefined) throw new SvgFault(`no name stands where one must, at character ${cursor.at + 1}`, BROKEN);
    cursor.at += found.length;
    return found;
  };
  const space = (): void => {
    while (/\s/.test(text[cursor.at] ?? "")) cursor.at++;
  };
  const close = (open: Open): void => {
    const parent = stack.at(-1);
    if (parent) parent.children.push(open);
    else if (root) throw new SvgFault("the file has two roots", BROKEN);
    else root = open;
  };

  while (cursor.at < text.length) {
    const next = text.indexOf("<", cursor.at);
    const between = text.slice(cursor.at, next < 0 ? text.length : next);
    if (stack.length === 0 && between.trim() !== "") throw new SvgFault("there is text outside of the drawing", BROKEN);
    if (next < 0) break;
    cursor.at = next;
    if (text.startsWith("<!--", cursor.at)) cursor.at = skipTo("-->", cursor.at + 4, "a comment");
    else if (text.startsWith("<![CDATA[", cursor.at)) cursor.at = skipTo("]]>", cursor.at + 9, "a text");
    else if (text.startsWith("<?", cursor.at)) cursor.at = skipTo("?>", cursor.at + 2, "an instruction");
    else if (text.startsWith("<!", cursor.at)) {
      const end = skipTo(">", cursor.at, "its type");
      if (text.slice(cursor.at, end).includes("["))
        throw new SvgFault("the file defines entities of its own, which may reach outside of it", "Save it as plain SVG again.");
      cursor.at = end;
    } else if (text.startsWith("</", cursor.at)) {
      cursor.at += 2;
      const closed = name();
      space();
      const open = stack.pop();
      if (open?.name !== closed || text[cursor.at] !== ">")
        throw new SvgFault(`</${closed}> closes nothing that is open`, BROKEN);
      cursor.at++;
      close(open);
    } else {
      cursor.at++;
      const open: Open = { name: name(), attributes: new Map(), children: [] };
      if (++count > MOST_ELEMENTS)
        throw new SvgFault(`it has more than ${MOST_ELEMENTS} elements`, "Leave out what is not needed.");
      readAttributes(open.attributes);
      const empty = text[cursor.at] === "/";
      if (empty) cursor.at++;
      if (text[cursor.at] !== ">") throw new SvgFault(`<${open.name}> is not closed at character ${cursor.at + 1}`, BROKEN);
      cursor.at++;
      if (empty) close(open);
      else {
        stack.push(open);
        if (stack.length > DEEPEST)
          throw new SvgFault(`groups lie more than ${DEEPEST} deep in each other`, "Ungroup them first.");
      }
    }
  }
  const unclosed = stack.at(-1);
  if (unclosed) throw new SvgFault(`<${unclosed.name}> is never closed: the file breaks off`, BROKEN);
  if (!root) throw new SvgFault("there is no drawing in it", BROKEN);
  return root;

  function readAttributes(into: Map<string, string>): void {
    for (;;) {
      space();
      const c = text[cursor.at];
      if (c === ">" || c === "/" || c === undefined) return;
      const key = name();
      space();
      if (text[cursor.at] !== "=") throw new SvgFault(`${key} has no value`, BROKEN);
      cursor.at++;
      space();
      const quote = text[cursor.at];
      if (quote !== '"' && quote !== "'") throw new SvgFault(`the value of ${key} stands in no quotes`, BROKEN);
      const end = skipTo(quote, cursor.at + 1, `the value of ${key}`);
      const raw = text.slice(cursor.at + 1, end - 1);
      if (raw.includes("<")) throw new SvgFault(`the value of ${key} holds a <`, BROKEN);
      if (into.has(key)) throw new SvgFault(`${key} is said twice`, BROKEN);
      into.set(key, unescaped(raw));
      cursor.at = end;
    }
  }
}

const unescaped = (raw: string): string =>
  raw.replace(/&([^;\s]*);?/g, (whole, name: string) => {
    const number = /^#(?:x([0-9a-fA-F]{1,6})|([0-9]{1,7}))$/.exec(name);
    const code = number ? (number[1] === undefined ? Number(number[2]) : Number.parseInt(number[1], 16)) : undefined;
    if (code !== undefined && code <= 0x10ffff && whole.endsWith(";")) return String.fromCodePoint(code);
    const known = Object.hasOwn(ENTITIES, name) && whole.endsWith(";") ? ENTITIES[name] : undefined;
    if (known === undefined) throw new SvgFault(`${whole} is no entity that XML knows`, BROKEN);
    return known;
  });
