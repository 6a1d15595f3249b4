/** The faces that come with the program. */

export interface BundledFace {
  /** By which a design names it; never renamed. */
  readonly id: string;
  readonly label: string;
  /** Names in `FACES_FOLDER` of the font and of the licence that it comes under. */
  readonly file: string;
  readonly licence: string;
  readonly kind: "text serif" | "display serif" | "slab" | "sans" | "blackletter" | "script";
  /** Width of the thinnest stroke of its capitals as a share of their height: what a cutter must pass. */
  readonly thinnest: number;
  /** What its strokes are like to cut. */
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
    thinnest: 0.0217,
    strokes: "Strong stems and fine hairlines, small sharp serifs.",
  },
  {
    id: "cinzel",
    label: "Cinzel",
    file: "cinzel-latin-600-normal.woff",
    licence: "LICENSE-cinzel.txt",
    kind: "display serif",
    thinnest: 0.0525,
    strokes: "Inscription capitals with sturdy thin strokes; its small letters are small capitals.",
  },
  {
    id: "zilla-slab",
    label: "Zilla Slab",
    file: "zilla-slab-latin-600-normal.woff",
    licence: "LICENSE-zilla-slab.txt",
    kind: "slab",
    thinnest: 0.0813,
    strokes: "Nearly even strokes with blunt slab serifs.",
  },
  {
    id: "lato",
    label: "Lato",
    file: "lato-latin-700-normal.woff",
    licence: "LICENSE-lato.txt",
    kind: "sans",
    thinnest: 0.102,
    strokes: "Even, strong strokes without serifs: the easiest to cut small.",
  },
  {
    id: "pirata-one",
    label: "Pirata One",
    file: "pirata-one-latin-400-normal.woff",
    licence: "LICENSE-pirata-one.txt",
    kind: "blackletter",
    thinnest: 0.0277,
    strokes: "Heavy broken strokes joined by thin ones, sharp points.",
  },
  {
    id: "unifrakturmaguntia",
    label: "UnifrakturMaguntia",
    file: "unifrakturmaguntia-latin-400-normal.woff",
    licence: "LICENSE-unifrakturmaguntia.txt",
    kind: "blackletter",
    thinnest: 0.0234,
    strokes: "Old German print, heavy strokes with hairline flourishes.",
  },
  {
    id: "pinyon-script",
    label: "Pinyon Script",
    file: "pinyon-script-latin-400-normal.woff",
    licence: "LICENSE-pinyon-script.txt",
    kind: "script",
    thinnest: 0.0141,
    strokes: "Copperplate writing with long hairlines: wants large letters or the finest bit.",
  },
  {
    id: "great-vibes",
    label: "Great Vibes",
    file: "great-vibes-latin-400-normal.woff",
    licence: "LICENSE-great-vibes.txt",
    kind: "script",
    thinnest: 0.0195,
    strokes: "Brush writing with swelling strokes and thin loops.",
  },
];

/** The bundled face of this id, or undefined: then the id is the name of a maker's own font file. */
export const bundledFace = (id: string): BundledFace | undefined => BUNDLED_FACES.find((face) => face.id === id);
