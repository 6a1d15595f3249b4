import { describe, expect, it } from "vitest";
import * as fc from "fast-check";
import { csvOf } from "../../src/report/csv.ts";

/** A reader after the grammar of RFC 4180, section 2, written apart from the writer. */
function read(text: string, between: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  while (at < text.length) {
    let field = "";
    if (text[at] === '"') {
      at++;
      for (;;) {
        if (text[at] === '"' && text[at + 1] === '"') {
          field += '"';
          at += 2;
        } else if (text[at] === '"') {
          at++;
          break;
        } else field += text[at++];
      }
    } else while (text[at] !== between && text[at] !== "\r") field += text[at++];
    row.push(field);
    if (text[at] === between) at++;
    else {
      expect(text.slice(at, at + 2)).toBe("\r\n");
      at += 2;
      rows.push(row);
      row = [];
    }
  }
  return rows;
}

describe("a table for a spreadsheet", () => {
  it("quotes a field that holds a quote, the sign between fields or a line's end, and doubles the quote (RFC 4180, 2.5 to 2.7)", () => {
    expect(csvOf([["a", 'say "b"', "c,d", "e;f"]], ".")).toBe('a,"say ""b""","c,d",e;f\r\n');
    expect(csvOf([["c,d", "e;f", "g\nh"]], ",")).toBe('c,d;"e;f";"g\nh"\r\n');
  });

  it("writes numbers with the decimal sign that is asked for, to a thousandth, and nothing behind a whole one", () => {
    expect(csvOf([[42.8625, 3, -0.0001, 1234567.5]], ".")).toBe("42.862,3,0,1234567.5\r\n");
    expect(csvOf([[42.5, 3]], ",")).toBe("42,5;3\r\n");
    expect(() => csvOf([[Number.NaN]], ".")).toThrow(RangeError);
  });

  it("keeps words that look like a formula from being one", () => {
    expect(csvOf([["=1+1", "-x", "@a"]], ".")).toBe("'=1+1,'-x,'@a\r\n");
  });

  it("is read back by the grammar as it was, whatever the words", () => {
    const words = fc.string({ maxLength: 12 }).filter((text) => !/^[=+\-@\t\r]/.test(text));
    fc.assert(
      fc.property(
        fc.array(fc.array(words, { minLength: 2, maxLength: 4 }), { maxLength: 4 }),
        fc.constantFrom(".", ","),
        (rows, decimal) => {
          expect(read(csvOf(rows, decimal), decimal === "." ? "," : ";")).toEqual(rows);
        },
      ),
    );
  });
});
