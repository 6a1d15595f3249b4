/** Markers against frets, strings and edges. */
import type { Finding } from "../contract.ts";
import { lineAcross, slantOf, stretchOf } from "../../lutherie/transverse-line.ts";
import { GEOMETRY, PRACTICE, atLeast, leastBy } from "../finding.ts";
import type { FingerboardCheck } from "./finding.ts";
import { instrumentOf } from "./numbers.ts";
import { at } from "./shapes.ts";

const markerFit: FingerboardCheck = {
  id: "marker-fit",
  title: "Markers are clear of frets, strings and edges",
  limits: {
    fret: { label: "Least wood between marker and slot", value: 1, quantity: "length", basis: PRACTICE },
    edge: { label: "Least wood between marker and edge of the blank", value: 1, quantity: "length", basis: PRACTICE },
  },
  run: ({ p, m, from, limits }) => {
    if (m.faceMarkers.length === 0) return [];
    const instrument = instrumentOf(from);
    const isDot = p.markerShape === "dot";
    const halfAlong = (isDot ? p.markerSize : p.markerLength) / 2;
    const halfAcross = p.markerSize / 2;
    const slope = (m.blankWidthAtEnd - m.blankWidthAtNut) / m.endX;

    const rooms = m.faceMarkers.map((marker) => {
      const [x, y] = marker.at;
      const reach = isDot ? halfAcross : halfAcross * Math.cos(marker.angleRad) + halfAlong * Math.abs(Math.sin(marker.angleRad));
      const gapTo = (fret: (typeof m.frets)[number]): number => {
        const line = lineAcross(at(fret.bass), at(fret.treble));
        // The marker is turned half way between its two frets, so that its ends come nearer to them than its middle.
        const lean = isDot ? 0 : Math.abs(Math.sin(slantOf(line) + marker.angleRad));
        return Math.abs(x - line.x0 - line.q * y) / stretchOf(line) - halfAcross * lean;
      };
      const strings = instrument.strings.map((string) => {
        const middle = string.nut.y + ((string.saddle.y - string.nut.y) * (x - string.nut.x)) / string.scale;
        return { number: string.number, room: Math.abs(y - middle) - reach };
      });
      return {
        marker,
        fret: Math.min(gapTo(m.frets[marker.fret]!), gapTo(m.frets[marker.fret - 1]!)) - halfAlong - p.slotWidth / 2,
        edge: (m.blankWidthAtNut + slope * x) / 2 - Math.abs(y) - reach,
        string: leastBy(strings, (entry) => entry.room),
      };
    });

    const findings: Finding[] = [];
    const tightFret = leastBy(rooms, (room) => room.fret)!;
    findings.push(
      atLeast({
        id: "marker-fit/fret",
        measured: tightFret.fret,
        needed: limits["fret"]!,
        stopBelow: 0,
        fine: "At least {measured} of board is left between markers and slots.",
        short:
          tightFret.fret < 0
            ? `The marker at fret ${tightFret.marker.fret} runs into a slot.`
            : `Only {measured} of board is left between the marker at fret ${tightFret.marker.fret} and a slot.`,
        mend: "Make the markers smaller.",
        basis: PRACTICE,
        at: at(tightFret.marker.at),
      }),
    );
    const tightEdge = leastBy(rooms, (room) => room.edge)!;
    findings.push(
      atLeast({
        id: "marker-fit/edge",
        measured: tightEdge.edge,
        needed: limits["edge"]!,
        stopBelow: 0,
        fine: "At least {measured} of board is left between markers and the edge of the blank.",
        short:
          tightEdge.edge < 0
            ? `The marker at fret ${tightEdge.marker.fret} breaks the edge of the blank.`
            : `Only {measured} of board is left between the marker at fret ${tightEdge.marker.fret} and the edge of the blank.`,
        mend: "Make the markers smaller.",
        basis: PRACTICE,
        at: at(tightEdge.marker.at),
      }),
    );
    // A bar lies under the strings on purpose.
    const tightString = p.markerShape === "bar" ? undefined : leastBy(rooms, (room) => room.string?.room ?? Infinity);
    if (tightString?.string) {
      findings.push(
        atLeast({
          id: "marker-fit/string",
          measured: tightString.string.room,
          needed: 0,
          fine: "Markers lie between the strings, at least {measured} from the middle of any.",
          short: `The marker at fret ${tightString.marker.fret} reaches under string ${tightString.string.number}.`,
          mend: "Make the markers smaller or place them between strings.",
          basis: PRACTICE,
          at: at(tightString.marker.at),
        }),
      );
    }
    return findings;
  },
};

const markerFrets: FingerboardCheck = {
  id: "marker-frets",
  title: "Markers stand at frets that the board has",
  limits: {},
  run: ({ p, m }) => {
    const wanted = [...new Set([...p.markerFrets, ...p.doubleFrets, ...p.sideFrets, ...p.sideDoubles])];
    if (wanted.length === 0) return [];
    const missing = wanted.filter((fret) => !m.frets[fret]?.crownEnds).toSorted((a, b) => a - b);
    return [
      {
        id: "marker-frets",
        severity: missing.length > 0 ? "look" : "fine",
        says:
          missing.length > 0
            ? `Markers are wanted at ${missing.length === 1 ? "fret" : "frets"} ${missing.join(", ")}, which the board has not.`
            : "Every marker stands at a fret of the board.",
        basis: GEOMETRY,
        mend: missing.length > 0 ? "Take them off the list." : "",
      },
    ];
  },
};

const sideMarkers: FingerboardCheck = {
  id: "side-marker-fit",
  title: "Side markers fit the edge",
  limits: { least: { label: "Least wood round a side marker", value: 0.5, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    if (m.sideMarkers.length === 0) return [];
    const radius = p.sideDiameter / 2;
    const below = Math.min(m.edgeHeightAtNut, m.edgeHeightAtEnd) - p.sideDepth - radius;
    const above = p.sideDepth - radius;
    const measured = Math.min(above, below);
    return [
      atLeast({
        id: "side-marker-fit",
        measured,
        needed: limits["least"]!,
        stopBelow: 0,
        fine: "At least {measured} of edge is left round the side markers.",
        short: `Side markers leave {measured} of the edge ${above < below ? "above" : "below"} them.`,
        mend: "Use smaller side markers or place them nearer to the middle of the edge.",
        basis: PRACTICE,
      }),
    ];
  },
};

export const markerChecks: readonly FingerboardCheck[] = [markerFit, markerFrets, sideMarkers];
