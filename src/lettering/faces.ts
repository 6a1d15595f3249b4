/** The faces that come with the program. */

export interface BundledFace {
  /** By which a design names it; never renamed. */
  readonly id: string;
  readonly label: string;
  /** Names in `FACES_FOLDER` of the font and of the licence that it comes under. */
  readonly file: string;
  readonly licence: string;
  readonly kind: "text serif" | "display serif" | "slab" | "sans" | "blackletter" | "script";
  /** What its strokes are like to cut; fractions are of the height of capitals, as measured on the capitals. */
  readonly strokes: string;
}

/** The folder of the files, as seen from the page. */
export const FACES_FOLDER = "faces";

export const BUNDLED_FACES: readonly BundledFace[] = [
  {
    id: "cormorant-garamond",
    label: "Cormorant Garamond",
    file: "cormorant-garamond-latin-600-normal.woff",
    licence: "LICENSE-cormorant-garamond.txt",
    kind: "text serif",
    strokes: "Strong stems, small sharp serifs; thin strokes of 1/30, in places 1/45.",
  },
  {
    id: "cinzel",
    label: "Cinzel",
    file: "cinzel-latin-600-normal.woff",
    licence: "LICENSE-cinzel.txt",
    kind: "display serif",
    strokes: "Inscription capitals, also for small letters; thin strokes of 1/18.",
  },
  {
    id: "zilla-slab",
    label: "Zilla Slab",
    file: "zilla-slab-latin-600-normal.woff",
    licence: "LICENSE-zilla-slab.txt",
    kind: "slab",
    strokes: "Nearly even strokes with blunt slab serifs, 1/12 at the thinnest.",
  },
  {
    id: "lato",
    label: "Lato",
    file: "lato-latin-700-normal.woff",
    licence: "LICENSE-lato.txt",
    kind: "sans",
    strokes: "Even, strong strokes without serifs, 1/10 at the thinnest: the easiest to cut small.",
  },
  {
    id: "pirata-one",
    label: "Pirata One",
    file: "pirata-one-latin-400-normal.woff",
    licence: "LICENSE-pirata-one.txt",
    kind: "blackletter",
    strokes: "Heavy broken strokes with sharp points, joined by thin ones of 1/16, in places 1/36.",
  },
  {
    id: "unifrakturmaguntia",
    label: "UnifrakturMaguntia",
    file: "unifrakturmaguntia-latin-400-normal.woff",
    licence: "LICENSE-unifrakturmaguntia.txt",
    kind: "blackletter",
    strokes: "Old German print, heavy strokes with fine flourishes of 1/28, in places 1/43.",
  },
  {
    id: "pinyon-script",
    label: "Pinyon Script",
    file: "pinyon-script-latin-400-normal.woff",
    licence: "LICENSE-pinyon-script.txt",
    kind: "script",
    strokes: "Copperplate writing with long hairlines of 1/70: wants large letters and the finest bit.",
  },
  {
    id: "great-vibes",
    label: "Great Vibes",
    file: "great-vibes-latin-400-normal.woff",
    licence: "LICENSE-great-vibes.txt",
    kind: "script",
    strokes: "Brush writing with swelling strokes and thin loops of 1/40, in places 1/55.",
  },
];

/** The bundled face of this id, or undefined: then the id is a maker's own font file, as a data address. */
export const bundledFace = (id: string): BundledFace | undefined => BUNDLED_FACES.find((face) => face.id === id);
