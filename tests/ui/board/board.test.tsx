// @vitest-environment jsdom
import { act, useEffect, useState } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Drawing } from "../../../src/drawing/drawing.ts";
import { circle, polygon, segmentPath } from "../../../src/geometry/path.ts";
import { vec } from "../../../src/geometry/vec.ts";
import type { Camera } from "../../../src/store/session-store.ts";
import { Board, type BoardProps } from "../../../src/ui/board/board.tsx";
import { toScreen } from "../../../src/ui/board/viewport.ts";
import { calls, stubPage } from "./stub-page.ts";

const WIDTH = 1000;
const HEIGHT = 700;

const drawing: Drawing = {
  layers: [
    {
      name: "outline",
      shapes: [
        {
          id: "outline",
          role: "cut",
          line: "visible",
          name: "fingerboard",
          tint: "wood",
          path: polygon([vec(0, -20), vec(400, -25), vec(400, 25), vec(0, 20)]),
        },
      ],
    },
    {
      name: "frets",
      shapes: [1, 2].map((n) => ({
        id: `fret-${n}`,
        role: "slot" as const,
        line: "narrow" as const,
        name: `fret ${n}`,
        path: segmentPath(vec(n * 50, -18), vec(n * 50, 18)),
        says: [{ label: "from the nut", value: n * 50, quantity: "length" as const }],
      })),
      texts: [{ id: "front", at: vec(200, -60), text: "Seen from the front", height: 5, align: "middle" }],
    },
    {
      name: "markers",
      shapes: [{ id: "marker-1", role: "pocket", line: "narrow", name: "marker 1", tint: "inlay", path: circle(vec(25, 0), 3) }],
    },
  ],
  dimensions: [
    {
      id: "nut",
      from: vec(0, -20),
      to: vec(0, 20),
      along: "y",
      offset: 12,
      value: 42.8625,
      quantity: "length",
      edits: "instrument.nutWidth",
      rank: 1,
    },
    {
      id: "long",
      from: vec(0, 20),
      to: vec(400, 25),
      along: "x",
      offset: 12,
      value: 400,
      quantity: "length",
      edits: "parts.fingerboard.length",
      rank: 1,
    },
    {
      id: "second",
      from: vec(0, -20),
      to: vec(100, -20),
      along: "x",
      offset: -12,
      value: 100,
      quantity: "length",
      after: "to fret 2",
      rank: 2,
    },
  ],
};

let root: Root;
let host: HTMLElement;
let seen: { camera: Camera | undefined; selection: string | undefined };
const onEdit = vi.fn<BoardProps["onEdit"]>();

function Frame(change: Partial<BoardProps>) {
  const [camera, setCamera] = useState<Camera | undefined>({ centre: vec(200, 0), pxPerMm: 2 });
  const [selection, setSelection] = useState<string>();
  useEffect(() => {
    seen = { camera, selection };
  });
  return (
    <Board
      drawing={drawing}
      name="Fingerboard"
      theme="paper"
      units={{ unit: "mm", fractions: false }}
      selection={selection}
      onSelect={setSelection}
      textOf={(path) => (path === "instrument.nutWidth" ? "1 11/16 in" : undefined)}
      onEdit={onEdit}
      camera={camera}
      onCamera={setCamera}
      {...change}
    />
  );
}

async function show(change: Partial<BoardProps> = {}): Promise<void> {
  await act(async () => root.render(<Frame {...change} />));
}

const surface = (): HTMLElement => host.querySelector<HTMLElement>("[role=application]")!;
const button = (text: string): HTMLButtonElement =>
  [...host.querySelectorAll("button")].find((b) => (b.getAttribute("aria-label") ?? b.textContent ?? "").startsWith(text))!;
const status = (): string => host.querySelector("output")!.textContent ?? "";
const painted = (): string[] => calls.filter((c) => c.name === "fillText").map((c) => String(c.args[0]));
const key = (name: string, on: HTMLElement = surface()) =>
  act(async () => on.dispatchEvent(new KeyboardEvent("keydown", { key: name, bubbles: true, cancelable: true })));
/** Where a point of the drawing stands with the camera as it is. */
const at = (x: number, y: number) => toScreen({ camera: seen.camera!, width: WIDTH, height: HEIGHT }, vec(x, y));
const point = (type: string, x: number, y: number, more: Partial<MouseEventInit & { pointerId: number }> = {}) =>
  act(async () => {
    const event = new MouseEvent(type, { clientX: x, clientY: y, bubbles: true, cancelable: true, ...more });
    Object.assign(event, { pointerId: more.pointerId ?? 1, pointerType: "mouse" });
    surface().dispatchEvent(event);
  });
const press = async (x: number, y: number): Promise<void> => {
  await point("pointerdown", x, y);
  await point("pointerup", x, y);
};
async function type(text: string): Promise<HTMLInputElement> {
  const input = host.querySelector("input")!;
  await act(async () => {
    Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")!.set!.call(input, text);
    input.dispatchEvent(new Event("input", { bubbles: true }));
  });
  return input;
}

beforeEach(async () => {
  stubPage(WIDTH, HEIGHT);
  calls.length = 0;
  onEdit.mockReset();
  onEdit.mockReturnValue({ ok: true, value: undefined });
  host = document.createElement("div");
  document.body.append(host);
  root = createRoot(host);
  await show();
});
afterEach(async () => {
  await act(async () => root.unmount());
  host.remove();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

describe("the board draws", () => {
  it("lines, arcs, tints, and the texts of the drawing and of its dimensions", () => {
    expect(painted()).toContain("Seen from the front");
    expect(painted()).toContain("100 mm to fret 2");
    expect(calls.some((c) => c.name === "arc")).toBe(true);
    expect(calls.some((c) => c.name === "fill" && c.args[0] === "evenodd")).toBe(true);
    const nut = at(0, -20);
    expect(calls.some((c) => c.name === "moveTo" && Math.abs((c.args[0] as number) - nut.x) <= 0.5 && c.args[1] === nut.y)).toBe(
      true,
    );
  });

  it("numbers on its rulers, in the chosen units", async () => {
    expect(painted()).toContain("400");
    calls.length = 0;
    await show({ units: { unit: "in", fractions: true } });
    // Changes are painted with the next frame.
    await new Promise((done) => requestAnimationFrame(done));
    // 400 mm are 15 3/4 in: the ruler ends its inches before 20.
    expect(painted()).toContain("14");
    expect(painted()).not.toContain("400");
  });

  it("the whole of the drawing where it has no camera, and says the scale", async () => {
    await key("f");
    expect(seen.camera).toBeUndefined();
    expect(host.textContent).toMatch(/1 : [0-9.]+ on this screen/);
    await show({ camera: { centre: vec(0, 0), pxPerMm: 96 / 25.4 / 2 } });
    expect(host.textContent).toContain("1 : 2 on this screen");
    await show({ camera: { centre: vec(0, 0), pxPerMm: 10 }, trueScale: 4 });
    expect(host.textContent).toContain("2.5 : 1 on this screen");
  });

  it("true size on the measure of this screen", async () => {
    await show({ trueScale: 5.1 });
    await act(async () => button("True size").click());
    expect(seen.camera!.pxPerMm).toBeCloseTo(5.1, 9);
    expect(host.textContent).toContain("1 : 1 on this screen");
  });
});

describe("a dimension that can be typed into", () => {
  it("is a button with its value, in the order of the drawing; one that cannot is none", () => {
    expect(
      [...host.querySelectorAll("button")].map((b) => b.getAttribute("aria-label")).filter((l) => l?.endsWith(": change")),
    ).toEqual(["42.86 mm: change", "400 mm: change"]);
  });

  it("opens with the text as it was typed, and hands on what is typed instead", async () => {
    await act(async () => button("42.86 mm").click());
    expect(host.querySelector("input")!.value).toBe("1 11/16 in");
    const input = await type("1 3/4");
    await key("Enter", input);
    expect(onEdit).toHaveBeenCalledExactlyOnceWith("instrument.nutWidth", "1 3/4");
    expect(host.querySelector("input")).toBeNull();
    expect(document.activeElement).toBe(button("42.86 mm"));
  });

  it("opens with the value in its unit where nothing was typed, and changes nothing if left so", async () => {
    await act(async () => button("400 mm").click());
    const input = host.querySelector("input")!;
    expect(input.value).toBe("400 mm");
    await key("Enter", input);
    expect(onEdit).not.toHaveBeenCalled();
    expect(host.querySelector("input")).toBeNull();
  });

  it("says beside the field what is wrong, and keeps the field open with what was typed", async () => {
    onEdit.mockReturnValue({ ok: false, error: { message: "“abc” is not a number", mend: "Write a length." } });
    await act(async () => button("42.86 mm").click());
    const input = await type("abc");
    await key("Enter", input);
    expect(input.value).toBe("abc");
    expect(input.getAttribute("aria-invalid")).toBe("true");
    const words = document.getElementById(input.getAttribute("aria-describedby")!)!;
    expect(words.textContent).toBe("“abc” is not a number. Write a length.");
  });

  it("is left by Escape with nothing changed", async () => {
    await act(async () => button("42.86 mm").click());
    const input = await type("7");
    await key("Escape", input);
    expect(host.querySelector("input")).toBeNull();
    expect(onEdit).not.toHaveBeenCalled();
  });

  it("takes letters as text while it is typed into, not as keys of the board", async () => {
    await act(async () => button("42.86 mm").click());
    const before = seen.camera;
    await key("f", host.querySelector("input")!);
    expect(seen.camera).toBe(before);
  });
});

describe("choosing", () => {
  it("takes the shape under a press, says it, and lets go on empty board", async () => {
    const fret = at(50, 8);
    await press(fret.x + 3, fret.y);
    expect(seen.selection).toBe("fret-1");
    expect(status()).toBe("Chosen: fret 1, from the nut 50 mm");
    await press(at(70, 60).x, at(70, 60).y);
    expect(seen.selection).toBeUndefined();
    expect(status()).toBe("");
  });

  it("steps through the shapes with the brackets, and ends with Escape", async () => {
    await key("]");
    expect(seen.selection).toBe("outline");
    await key("]");
    await key("]");
    expect(seen.selection).toBe("fret-2");
    await key("[");
    expect(seen.selection).toBe("fret-1");
    await key("Escape");
    expect(seen.selection).toBeUndefined();
    await key("[");
    expect(seen.selection).toBe("marker-1");
  });

  it("brings into sight what the brackets choose out of sight", async () => {
    await show({ camera: undefined });
    await act(async () => root.render(<Frame key="far" />));
    for (let i = 0; i < 40; i++) await key("ArrowRight");
    const left = seen.camera!;
    await key("]");
    expect(seen.camera).not.toEqual(left);
    expect(seen.camera!.centre).toEqual(vec(200, 0));
  });

  it("shows a note on what is pointed at, and none where nothing is", async () => {
    const fret = at(100, 8);
    await point("pointermove", fret.x, fret.y);
    expect(host.querySelector(".board-note")!.textContent).toBe("fret 2from the nut100 mm");
    await point("pointermove", at(70, 60).x, at(70, 60).y);
    expect(host.querySelector(".board-note")).toBeNull();
  });
});

describe("moving about", () => {
  it("zooms with the wheel and keeps what is under the pointer there", async () => {
    const before = at(300, 10);
    const wheel = new WheelEvent("wheel", {
      deltaY: -120,
      clientX: before.x,
      clientY: before.y,
      bubbles: true,
      cancelable: true,
    });
    await act(async () => surface().dispatchEvent(wheel));
    expect(wheel.defaultPrevented).toBe(true);
    expect(seen.camera!.pxPerMm).toBeGreaterThan(2);
    expect(at(300, 10).x).toBeCloseTo(before.x, 6);
    expect(at(300, 10).y).toBeCloseTo(before.y, 6);
  });

  it("is dragged by as many px as the pointer moves, and a drag chooses nothing", async () => {
    const before = at(50, 8);
    await point("pointerdown", before.x, before.y);
    await point("pointermove", before.x + 40, before.y + 25);
    await point("pointerup", before.x + 40, before.y + 25);
    expect(at(50, 8).x).toBeCloseTo(before.x + 40, 6);
    expect(at(50, 8).y).toBeCloseTo(before.y + 25, 6);
    expect(seen.selection).toBeUndefined();
  });

  it("is dragged with the middle button from anywhere, and every move counts though nothing is drawn between them", async () => {
    const before = at(50, 8);
    await act(async () => {
      for (const [type, x] of [
        ["pointerdown", 0],
        ["pointermove", 10],
        ["pointermove", 25],
        ["pointermove", 45],
      ] as const) {
        const event = new MouseEvent(type, {
          clientX: before.x + x,
          clientY: before.y,
          button: 1,
          bubbles: true,
          cancelable: true,
        });
        Object.assign(event, { pointerId: 1, pointerType: "mouse" });
        surface().dispatchEvent(event);
      }
    });
    expect(at(50, 8).x).toBeCloseTo(before.x + 45, 6);
  });

  it("is pinched by two fingers, which keep hold of what they took", async () => {
    const a = at(100, 0);
    const b = at(300, 0);
    await point("pointerdown", a.x, a.y, { pointerId: 1 });
    await point("pointerdown", b.x, b.y, { pointerId: 2 });
    await point("pointermove", b.x + 100, b.y, { pointerId: 2 });
    expect(at(100, 0).x).toBeCloseTo(a.x, 6);
    expect(at(300, 0).x).toBeCloseTo(b.x + 100, 6);
    await point("pointerup", a.x, a.y, { pointerId: 1 });
    await point("pointerup", b.x + 100, b.y, { pointerId: 2 });
    expect(seen.selection).toBeUndefined();
  });

  it("moves with the arrows and zooms with plus and minus about the middle", async () => {
    const before = at(200, 0);
    await key("ArrowRight");
    expect(at(200, 0).x).toBeLessThan(before.x);
    await key("ArrowLeft");
    await key("+");
    expect(seen.camera).toEqual({ centre: vec(200, 0), pxPerMm: 2.5 });
    await key("-");
    expect(seen.camera!.pxPerMm).toBeCloseTo(2, 9);
  });

  it("fits on a double press on empty board", async () => {
    await act(async () => surface().dispatchEvent(new MouseEvent("dblclick", { clientX: 500, clientY: 80, bubbles: true })));
    expect(seen.camera).toBeUndefined();
  });

  it("turns to a place that a finding points to, once", async () => {
    const highlight = { at: vec(2000, 0), shape: "fret-1" };
    await show({ highlight });
    expect(seen.camera!.centre).toEqual(vec(2000, 0));
    await key("ArrowRight");
    const moved = seen.camera;
    await show({ highlight });
    expect(seen.camera).toBe(moved);
  });
});

describe("places where the work stops", () => {
  it("are ringed in the drawing without being looked at, and the rings go when nothing stops", async () => {
    const frame = () => new Promise((done) => requestAnimationFrame(done));
    const rings = (): number => calls.filter(({ name, args }) => name === "arc" && args[2] === 14).length;
    const at = vec(100, 0);
    await show({ stops: [{ at, shape: "fret-2" }] });
    await frame();
    expect(rings()).toBeGreaterThan(0);
    const camera = seen.camera;
    calls.length = 0;
    await show({ stops: [] });
    await frame();
    expect(rings()).toBe(0);
    expect(seen.camera).toBe(camera);
  });
});

describe("for those who do not see it", () => {
  it("lists the dimensions and the shapes with their numbers", () => {
    const items = [...host.querySelectorAll(".unseen li")].map((li) => li.textContent);
    expect(items).toEqual([
      "42.86 mm",
      "400 mm",
      "100 mm to fret 2",
      "fingerboard",
      "fret 1, from the nut 50 mm",
      "fret 2, from the nut 100 mm",
      "marker 1",
    ]);
  });

  it("keeps the canvases from being read", () => {
    expect(surface().querySelector("canvas")!.closest("[aria-hidden=true]")).not.toBeNull();
  });
});
