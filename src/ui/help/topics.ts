/**
 * The help: a short page a task. What is done in each step stands beside its words, so that a test can follow the page and the pictures
 * can be taken from the app as it is (`npm run pictures`).
 */

/** One thing that a reader of the page does. Names are those on the screen. */
export type Deed =
  | { readonly go: string }
  | { readonly press: string; readonly as?: "button" | "link" | "menuitem" | "tab" | "switch" | "checkbox" }
  | { readonly type: string; readonly into: string }
  | { readonly choose: string; readonly under: string }
  | { readonly see: string };

export interface Step {
  readonly says: string;
  readonly does?: readonly Deed[];
}

export interface Topic {
  readonly id: string;
  readonly title: string;
  readonly about: string;
  readonly steps: readonly Step[];
  /**
   * What the picture shows, in words; its file is `help/<id>.png`, taken after the step `after`, counted from 0, of the whole window or of
   * a part of it.
   */
  readonly picture: { readonly shows: string; readonly after: number; readonly of?: string };
  /** The place where it is done. */
  readonly place: string;
}

export const TOPICS: readonly Topic[] = [
  {
    id: "first-board",
    title: "Your first fingerboard",
    about: "Five numbers, and the printer gives you the board at true size.",
    place: "first",
    picture: { shows: "Five numbers at the left, the fingerboard that they make at the right.", after: 2 },
    steps: [
      { says: "Open “My first fingerboard”.", does: [{ go: "first" }] },
      {
        says: "Type the scale: nut to fret 12, times two. A length may be written as you say it: 25.4, 1 11/16, 43 mm, 95 thou.",
        does: [{ type: "25.4", into: "Scale" }],
      },
      {
        says: "Type the frets, the width at the nut, the width at the join, and the binding; 0 where there is none.",
        does: [
          { type: "20", into: "Frets" },
          { type: "1 11/16", into: "Width at the nut" },
        ],
      },
      { says: "Choose the paper in your printer and press “Save the PDF”.", does: [{ see: "Save the PDF" }] },
      { says: "Print it at 100 %, not fitted to the page, and lay a steel rule on the 100 mm bar before you cut anything." },
    ],
  },
  {
    id: "numbers",
    title: "Settle the numbers that all parts share",
    about: "Strings, scale and frets, the nut and the spread at the saddle. Every part follows them.",
    place: "numbers",
    picture: { shows: "The spec sheet of the instrument under a drawing of its strings and frets.", after: 1 },
    steps: [
      { says: "Open Numbers.", does: [{ go: "numbers" }] },
      {
        says: "Type a number and press Enter. The bar under it shows where it lies in its usual range.",
        does: [{ type: "1 3/4", into: "Width at the nut" }],
      },
      {
        says: "Of three numbers that hang together, two are given and the third follows: its box is dashed and says what it follows. “let this one follow” turns that round.",
        does: [{ see: "let this one follow" }],
      },
      { says: "Press the name of a number for what it is, its usual range and where that comes from." },
      { says: "A number may be a formula: = nutWidth - 2 * 0.095 in. The short name of a number stands in its explanation." },
    ],
  },
  {
    id: "parts",
    title: "Change a part on the board",
    about: "Every number stands on the drawing and in the list beside it. Change it where you look.",
    place: "parts/fingerboard",
    picture: {
      shows: "A fingerboard on the drawing board with its dimensions, the parts at the left, the numbers at the right.",
      after: 0,
    },
    steps: [
      { says: "Open Parts and choose a part at the left.", does: [{ go: "parts/fingerboard" }] },
      { says: "Press a number on the drawing, type the new one, press Enter." },
      { says: "Wheel or two fingers to come nearer, drag to move along. “Fit” brings the whole part back." },
      { says: "Ctrl Z takes any step back, also after the page was closed." },
    ],
  },
  {
    id: "inlay",
    title: "Initials let into a plate",
    about: "Pocket and inlay piece from one outline, and where your bit cannot follow the letters, before you cut.",
    place: "parts",
    picture: {
      shows: "Two initials in a script face in a headstock, with the places hatched where the bit cannot get in.",
      after: 4,
    },
    steps: [
      {
        says: "Open Parts and choose the inlay at the left. Where there is none, press “Add a part”.",
        does: [{ go: "parts/inlay" }],
      },
      {
        says: "Type the letters, choose a face, and say how tall the capitals are.",
        does: [
          { type: "BO", into: "Letters" },
          { choose: "Great Vibes", under: "Face" },
          { type: "15 mm", into: "Size" },
        ],
      },
      {
        says: "Choose under “Let into” what they lie in. They come to the middle of the free room; “Placed by” lays them by edges or frets.",
        does: [{ choose: "Headstock", under: "Let into" }, { see: "Placed by" }],
      },
      {
        says: "Under “Cut with” choose a machine, a guide bush or a knife, and type the bit for the pocket. The glue gap is 0.05 mm until a coupon tells better.",
        does: [{ choose: "A machine", under: "Cut with" }, { type: "0.5 mm", into: "Bit for the pocket" }, { see: "Glue gap" }],
      },
      {
        says: "Read the line under the drawing: it says whether all strokes survive the bit, and else which size or bit keeps them. Red hatching is wood that the bit leaves.",
        does: [{ see: "0.5 mm bit" }, { see: "Bit cannot get in" }],
      },
      {
        says: "Open Sheets, press “none”, tick “Fit coupon” and save it. Cut it in scrap with the bits and the glue that you will use.",
        does: [{ go: "sheets" }, { press: "none" }, { press: "Fit coupon", as: "checkbox" }, { see: "Save PDF" }],
      },
      {
        says: "Back at the inlay, type the gap of the piece that went in with a push. The glue gap follows it.",
        does: [{ go: "parts/inlay" }, { type: "0.06 mm", into: "Gap that fitted in the coupon" }],
      },
      {
        says: "In Sheets tick pocket and inlay pieces instead of the coupon. “SVG” is for a machine; “Save PDF” is for paper, printed at 100 %.",
        does: [
          { go: "sheets" },
          { press: "Fit coupon", as: "checkbox" },
          { press: "Pocket, BO", as: "checkbox" },
          { press: "Inlay pieces, BO", as: "checkbox" },
          { see: "SVG" },
        ],
      },
    ],
  },
  {
    id: "fit",
    title: "Check that it fits, before you cut",
    about: "Every check is a sentence: what was measured, what is needed, and where that figure comes from.",
    place: "fit",
    picture: { shows: "The list of checks, the gravest first, with the place of one shown beside it.", after: 0 },
    steps: [
      { says: "Open Fit. What stops the work stands first, then what wants a look.", does: [{ go: "fit" }] },
      { says: "Point at a check: its place is shown at the side. “Show” leads to it on the board." },
      { says: "A clear check is no promise. Try the template in scrap before good wood." },
    ],
  },
  {
    id: "sheets",
    title: "Print at true size",
    about: "Sheets for the office printer, joined by numbered marks, with bars to measure on every one.",
    place: "sheets",
    picture: { shows: "The sheets as they will leave the printer, the templates at the left, the paper at the right.", after: 0 },
    steps: [
      { says: "Open Sheets and leave only those templates ticked that you want.", does: [{ go: "sheets" }] },
      { says: "Choose the paper. The pages show at once where they are joined." },
      { says: "Press “Save PDF” and print it at 100 %.", does: [{ see: "Save PDF" }] },
      {
        says: "Measure the bars on the first sheet. If they are off, measure the printer once: the sheets are corrected from then on.",
      },
      { says: "Press the name of a template to move its edge for a bearing or a guide bush, or to reverse it." },
    ],
  },
  {
    id: "machine",
    title: "Send a template to a machine",
    about: "An SVG file in millimetres: closed outlines, holes and pockets by name, nothing that a machine does not need.",
    place: "sheets",
    picture: {
      shows: "The foot of the sheets with the ways to save: PDF, SVG, or all in one archive.",
      after: 1,
      of: ".sheets-foot",
    },
    steps: [
      { says: "Open Sheets and leave only the template ticked that you want.", does: [{ go: "sheets" }] },
      { says: "Press “SVG”.", does: [{ see: "SVG" }] },
      { says: "In the program of your machine, check the units and one length before the first cut." },
    ],
  },
  {
    id: "order",
    title: "Take an order",
    about: "Who it is for, what was agreed, and the instrument that the player likes beside yours.",
    place: "order",
    picture: { shows: "The order sheet with the lengths of an instrument that the player likes beside ours.", after: 2 },
    steps: [
      {
        says: "Open Order. The designs kept in this browser are at the left, the order sheet at the right.",
        does: [{ go: "order" }],
      },
      {
        says: "Write number, player and what was agreed. A number that another instrument has is refused.",
        does: [
          { type: "14", into: "Number" },
          { type: "H. Rowan", into: "Player" },
        ],
      },
      {
        says: "Measure the instrument that the player likes. Ours stands beside, with the difference; “take theirs” takes a length over.",
        does: [{ type: "1 11/16", into: "Width at the nut, theirs" }],
      },
      {
        says: "“Save the report” gives the whole order on paper: checks, cutting list, what was cut, all numbers.",
        does: [{ see: "Save the report" }],
      },
    ],
  },
  {
    id: "cuts",
    title: "Keep a record of what was cut",
    about: "The numbers are kept with each cut, so a template on the wall finds them again years later.",
    place: "order",
    picture: {
      shows: "The record of a cut with its date, its material and the sign of its sheet.",
      after: 2,
      of: ".order-sheet",
    },
    steps: [
      { says: "Open Order and look for “What was cut”.", does: [{ go: "order" }] },
      { says: "Press “Enter a cut”, choose the template, write date and material.", does: [{ press: "Enter a cut" }] },
      {
        says: "Press “Enter it”. From now on its line says whether the template still matches, and by how much not.",
        does: [{ press: "Enter it" }],
      },
      { says: "“back to its numbers” brings the numbers of that cut back; one step of undo leaves them again." },
      {
        says: "The sign on a printed sheet, like 7F3-A2C, typed into the search over the designs, finds the design that it came from.",
      },
    ],
  },
  {
    id: "safe",
    title: "Where your work is kept",
    about: "In this browser, on this computer, a moment after every change. Nothing leaves it.",
    place: "order",
    picture: { shows: "The menu of files over the list of designs.", after: 1 },
    steps: [
      { says: "Under the design’s name at the top stands whether it is saved.", does: [{ go: "order" }] },
      {
        says: "For another computer, or for safety, open “Files”: a design as a file, or all of them in one archive.",
        does: [{ press: "Files" }, { see: "Save all designs in one archive" }],
      },
      { says: "“Recent versions”, in the menu of the design on the bench, brings an earlier state back." },
      { says: "Two tabs on one design notice each other. Where both have changed it you choose, and neither is lost." },
      { says: "After the first visit the whole app works without a network, and can be installed from the browser’s own menu." },
    ],
  },
];
