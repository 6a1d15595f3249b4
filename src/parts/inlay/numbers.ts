/** The settled numbers of an inlay. Lengths mm, angles radians. */
import type { OutlinePoint } from "../../geometry/drawn/point.ts";
import type { TemplateWay } from "../../lutherie/inlay-template.ts";

/** A letter that does something its neighbours do not. */
export interface LetterChange {
  /** Counted from 1, spaces too. */
  readonly letter: number;
  readonly along: number;
  readonly up: number;
  readonly turn: number;
  readonly scale: number;
}

export type OrnamentKind = "spot" | "ring" | "border" | "star" | "lozenge";

/** A plain figure beside the letters or round them. */
export interface Ornament {
  readonly figure: OrnamentKind;
  readonly x: number;
  readonly y: number;
  readonly turn: number;
  /** Diameter, or length along the line of letters. */
  readonly size: number;
  readonly height: number;
  readonly stroke: number;
  readonly corner: number;
  readonly points: number;
  readonly inner: number;
}

/** How one piece lies on the material it is cut from. */
export interface PieceTurn {
  readonly piece: number;
  readonly turn: number;
}

export type ArrangementKind = "row" | "arc" | "stacked" | "overlapped" | "interlaced";
export type HostKind = "none" | "headstock" | "fingerboard" | "pickguard" | "bridge" | "shape";
export type CutBy = "machine" | "bush" | "knife";

export interface LetterNumbers {
  readonly text: string;
  readonly face: string;
  /** The maker's own font file, as a data address. */
  readonly fontFile: string;
  readonly sizeBy: "cap-height" | "width" | "em";
  readonly size: number;
  readonly tracking: number;
  readonly kerning: boolean;
  readonly slant: number;
  readonly arrangement: ArrangementKind;
  readonly arcRadius: number;
  readonly arcSide: "outside" | "inside";
  readonly stackGap: number;
  readonly overlap: number;
  readonly weaveGap: number;
  readonly weaveBegins: "earlier" | "later";
  readonly weaveTurned: readonly number[];
  readonly changes: readonly LetterChange[];
}

export interface FigureNumbers {
  readonly ornaments: readonly Ornament[];
  readonly beside: "none" | "drawn" | "imported";
  readonly outline: readonly OutlinePoint[];
  /** Path data in mm, y down, as SVG writes it. */
  readonly art: string;
  readonly artWidth: number | undefined;
  readonly artX: number;
  readonly artY: number;
  readonly artTurn: number;
}

export interface PlaceNumbers {
  readonly on: HostKind;
  readonly onPart: string;
  readonly placed: "centre" | "edges" | "fret";
  readonly x: number;
  readonly y: number;
  readonly fromEnd: "head" | "tail";
  readonly endDistance: number;
  readonly fromSide: "middle" | "bass" | "treble";
  readonly sideDistance: number;
  readonly fret: number;
  readonly across: number;
  readonly turn: number;
}

export interface CuttingNumbers {
  readonly method: CutBy;
  readonly pocketBit: number;
  readonly pocketCuts: number | undefined;
  readonly pieceBit: number;
  readonly pieceCuts: number | undefined;
  readonly fitted: number | undefined;
  readonly gap: number;
  readonly share: number;
  readonly depth: number;
  readonly apart: boolean;
  readonly templates: TemplateWay;
  readonly pocketBush: number;
  readonly pieceBush: number;
  readonly clearing: boolean;
  readonly step: number;
  readonly clearingBit: number | undefined;
}

export interface PieceNumbers {
  readonly material: string;
  readonly pieceThickness: number;
  readonly grain: number;
  readonly cutFrom: "front" | "back";
  readonly turns: readonly PieceTurn[];
  readonly laid: "rows" | "in-place";
  readonly spacing: number;
}

export interface InlayParams extends LetterNumbers, FigureNumbers, PlaceNumbers, CuttingNumbers, PieceNumbers {}

/** Id by which the maker's own file is asked for. */
export const faceIdOf = (p: LetterNumbers): string => (p.face === "own" ? p.fontFile : p.face);

/** Radius that the cutter of the pocket really cuts, 0 for a knife. */
export const pocketRadius = (p: CuttingNumbers): number => (p.method === "knife" ? 0 : (p.pocketCuts ?? p.pocketBit) / 2);
export const pieceRadius = (p: CuttingNumbers): number => (p.method === "knife" ? 0 : (p.pieceCuts ?? p.pieceBit) / 2);
