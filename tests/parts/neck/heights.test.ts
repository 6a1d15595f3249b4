/** Heights and pitch: one chain, of which every number may follow or lead. */
import { describe, expect, it } from "vitest";
import { setValue } from "../../../src/document/set-value.ts";
import type { Design } from "../../../src/document/design.ts";
import { fieldOf, findingOf, shapeOf, templateOf } from "../derived-board.ts";
import { deriveNeck, type Given } from "./derived-neck.ts";

const severityOf = (id: string, given: Given): string => findingOf(deriveNeck(given).part, id).severity;
const DEGREE = Math.PI / 180;

/** Board 6.35 and frets 1.1, strings 0.4 over the frets' plane at the nut and 2.3 over fret 12, on a flat top. */
const WORKED: Given = {
  instrument: { scale: "650", nutWidth: "44", nutSpread: "37" },
  fingerboard: { thickness: "6.35", crownHeight: "1.1" },
  neck: { nutHeight: "0.4", action: "2.05", moreAtBass: "0.5", setback: "0", bridgeThickness: "9", saddleHeight: "3.5" },
};
const over = (neck: Record<string, unknown>, given: Given = WORKED): Given => ({ ...given, neck: { ...given.neck, ...neck } });

describe("the chain of heights", () => {
  it("gives the pitch worked by hand", () => {
    // Strings at 650: 0.4 + (2.3 - 0.4) · 2 = 4.2 over the frets' plane. 9 + 3.5 - 4.2 = 8.3 over the top; less 6.35 + 1.1 = 0.85
    // over 650 · 2^(-14/12) = 289.542 from the join: atan(0.85 / 289.542) = 0.16820 degrees.
    const { m } = deriveNeck(WORKED);
    expect(m.pitchRad / DEGREE).toBeCloseTo(0.1682, 4);
    expect(m.fretPlaneAtBridge).toBeCloseTo(8.3, 9);
    expect(m.fretPlaneOverBridge).toBeCloseTo(-0.7, 9);
    expect(m.stringsOverTop).toBe(12.5);
    expect(m.heelUndercut).toBeCloseTo((0.85 / 289.5421) * m.heelDepth, 6);
  });

  it("lets any of the five follow the other four, to the same chain", () => {
    const all = deriveNeck(WORKED).part;
    const values = Object.fromEntries(
      ["pitch", "action", "bridgeThickness", "saddleHeight", "boardThickness"].map((key) => [
        key,
        fieldOf(all, key).value as number,
      ]),
    );
    // A plain angle in a record is in degrees.
    const typed = { ...values, pitch: values["pitch"]! / DEGREE };
    for (const key of Object.keys(typed)) {
      const { [key]: _, ...others } = typed as Record<string, number>;
      const neck = { nutHeight: "0.4", moreAtBass: "0.5", setback: "0", ...others };
      const { part, m } = deriveNeck({ ...WORKED, neck });
      expect(fieldOf(part, key).state, key).toBe("follows");
      expect(fieldOf(part, key).value as number, key).toBeCloseTo(values[key]!, 9);
      expect(m.chainMiss).toBeCloseTo(0, 9);
    }
  });

  it("moves each follower the right way", () => {
    const value = (given: Given, key: string): number => fieldOf(deriveNeck(given).part, key).value as number;
    expect(value(over({ bridgeThickness: "10" }), "pitch")).toBeGreaterThan(value(WORKED, "pitch"));
    const pitched = { pitch: "1°", saddleHeight: undefined };
    expect(value(over({ ...pitched, action: "3" }), "saddleHeight")).toBeCloseTo(
      value(over(pitched), "saddleHeight") + 2 * 0.95,
      9,
    );
    // A board asked for by the heights and another in the design: told, with both figures.
    const asked = over({ pitch: "0°" });
    const finding = findingOf(deriveNeck(asked).part, "heights-agree/board");
    expect(finding).toMatchObject({ severity: "stop", measured: 6.35 });
    expect(finding.needed!).toBeCloseTo(6.35 + 0.85, 9);
  });

  it("is a balance: typing a fifth number takes one of the others back", () => {
    const design = {
      format: "gramil-design",
      version: 1,
      units: "mm",
      instrument: {},
      parts: { neck: { kind: "neck", action: "2", bridgeThickness: "9", saddleHeight: "4", boardThickness: "6.35" } },
    } as unknown as Design;
    const set = setValue(design, "parts.neck.pitch", "1°");
    if (!set.ok) throw new Error(JSON.stringify(set));
    const neck = (set.value as unknown as { design?: Design }).design ?? (set.value as unknown as Design);
    expect(neck.parts["neck"]).not.toHaveProperty("saddleHeight");
    expect(neck.parts["neck"]).toMatchObject({ pitch: "1°", action: "2" });
  });

  it("finds five numbers in a file that disagree", () => {
    const five = over({ pitch: "1°", boardThickness: "6.35" });
    expect(severityOf("heights-agree/saddle", five)).toBe("stop");
    expect(severityOf("heights-agree", WORKED)).toBe("fine");
  });

  it("takes the nut's slots and the compensation into account", () => {
    const { part } = deriveNeck({ nut: { fretClearance: "0.1" } });
    // Worked in tests/lutherie/nut-slots.test.ts: a clearance of 0.1 puts the slots 0.1545 over the crowns.
    expect(fieldOf(part, "nutHeight").value as number).toBeCloseTo(0.1545, 4);
    expect(deriveNeck(over({ setback: "3" })).m.saddleX).toBeCloseTo(653, 9);
  });

  it("shows itself in the side view: the string from the nut to the saddle, the saddle on the bridge", () => {
    const { part, m } = deriveNeck(WORKED);
    const drawing = part.drawing();
    const string = shapeOf(drawing, "side-string").path;
    const plane = shapeOf(drawing, "side-fret-plane").path;
    const end = string.segments[0]!.to;
    expect(end.x).toBeCloseTo(m.saddleX, 9);
    expect(end.y - plane.segments[0]!.to.y).toBeCloseTo(4.2, 9);
    expect(string.start.y - plane.start.y).toBeCloseTo(0.4, 9);
  });
});

describe("the saddle's top", () => {
  it("is level from string to string on a flat board but for the action", () => {
    const { m } = deriveNeck(WORKED);
    // Bass 2.55, treble 2.05 at fret 12: twice that less 0.4 at the scale, over a plane 0.7 below the bridge.
    expect(m.saddleTop[0]!.overBridge).toBeCloseTo(2 * 2.55 - 0.4 - 0.7, 9);
    expect(m.saddleTop.at(-1)!.overBridge).toBeCloseTo(2 * 2.05 - 0.4 - 0.7, 9);
    expect(m.saddleTop.map(({ string }) => string)).toEqual([6, 5, 4, 3, 2, 1]);
  });

  it("falls with the board's arch carried on: a cone of 254 at the nut and 406.4 at 470 has 464.8 at 650", () => {
    const board = { ...WORKED.fingerboard, radius: "254", radiusAtEnd: "406.4", length: "470" };
    const { m } = deriveNeck({ ...WORKED, fingerboard: board });
    const radius = 254 + ((406.4 - 254) * 650) / 470;
    expect(m.saddleRadius!).toBeCloseTo(radius, 9);
    const flat = deriveNeck(WORKED).m;
    m.saddleTop.forEach((point, i) => {
      const fall = radius - Math.sqrt(radius * radius - point.y * point.y);
      expect(point.overBridge).toBeCloseTo(flat.saddleTop[i]!.overBridge - fall, 9);
    });
    expect(severityOf("saddle-arch", { ...WORKED, fingerboard: board })).toBe("fine");
    expect(severityOf("saddle-arch", { ...WORKED, fingerboard: { ...board, radius: "300", radiusAtEnd: "100" } })).toBe("stop");
  });

  it("comes as a template with a figure for every string", () => {
    const { part, m } = deriveNeck({ ...WORKED, fingerboard: { ...WORKED.fingerboard, radius: "400" } });
    const sheet = templateOf(part, "saddle-top");
    expect(sheet.table!.rows).toEqual(
      m.saddleTop.map(({ string, overBridge }) => ({ label: `string ${string}`, value: overBridge })).toReversed(),
    );
    const line = shapeOf(sheet.drawing, "saddle-line").path;
    expect(line.start.y).toBeCloseTo(m.saddleTop[0]!.overBridge, 9);
  });

  it("is told where it stands too low or too high", () => {
    expect(severityOf("saddle-height/least", over({ saddleHeight: "3.5" }))).toBe("fine");
    expect(severityOf("saddle-height/least", over({ saddleHeight: "1.9" }))).toBe("look");
    expect(severityOf("saddle-height/least", over({ saddleHeight: "0.2" }))).toBe("stop");
    expect(severityOf("saddle-height/most", over({ saddleHeight: "6.2" }))).toBe("look");
    expect(severityOf("pitch", over({ pitch: "3.2°", saddleHeight: undefined }))).toBe("look");
  });
});

describe("the board over the body", () => {
  it("gaps a flat top by tan(pitch) times its length there", () => {
    const given = over({ pitch: "1°", saddleHeight: undefined });
    const { m } = deriveNeck({ ...given, fingerboard: { ...given.fingerboard, length: "450" } });
    expect(m.extensionGap).toBeCloseTo(Math.tan(DEGREE) * (450 - m.joinX), 9);
    expect(m.extensionLeast).toBeCloseTo(0, 9);
  });

  it("digs into a domed top by what the sphere rises: chord 500, radius 8000, 90 along 90 · 410 / 16000", () => {
    const given = over({ pitch: "0°", saddleHeight: undefined, topRadius: "8000", bodyLength: "500", flatFor: "0" });
    const { part, m, instrument } = deriveNeck({ ...given, fingerboard: { ...given.fingerboard, length: "450" } });
    const along = 450 - instrument.joinX;
    // On a chord of the circle, u from one end and v from the other: rise = R - sqrt(R² - ...) = u v / 2R to 0.02 %.
    expect(m.extensionGap).toBeCloseTo((-along * (500 - along)) / 16000, 2);
    expect(findingOf(part, "extension").severity).toBe("look");
    const rise = fieldOf(part, "topRise").value as number;
    const at = 650 - instrument.joinX;
    expect(rise).toBeCloseTo((at * (500 - at)) / 16000, 2);
  });

  it("lies on a top left flat under it", () => {
    const given = over({ pitch: "0°", saddleHeight: undefined, topRadius: "8000" });
    expect(severityOf("extension", given)).toBe("fine");
    expect(severityOf("extension", over({ pitch: "2.5°", saddleHeight: undefined }))).toBe("look");
  });
});
