/** The fault of every design in tests/data/faulty: where it must be found, how grave it is, and the number, worked by hand where it can be. */
import type { Severity } from "../../src/parts/contract.ts";

export interface Fault {
  readonly file: string;
  readonly part: string;
  readonly id: string;
  readonly severity: Severity;
  readonly measured: number;
  /** mm that the number may be off. */
  readonly within: number;
  readonly needed?: number;
  /** Shape or place that the finding must lead to; undefined where it concerns the part as a whole. */
  readonly shape?: string;
  readonly at?: (at: { readonly x: number; readonly y: number }) => boolean;
  /** A piece of its sentence. */
  readonly says: RegExp;
}

export const FAULTS: readonly Fault[] = [
  {
    // Fret 1 is 16 deep with a board of 6.35: 9.65 of wood, and the rod's channel takes 9.53 of it; its corners lie nearer to the round back.
    file: "thin-neck",
    part: "neck",
    id: "wood-behind/rod",
    severity: "stop",
    measured: 0,
    within: 0.12,
    needed: 3,
    shape: "section-least-rod",
    // The sections are drawn below the plan and the side view.
    at: ({ y }) => y < -100,
    says: /breaks through the back of the neck between the nut and fret 1/,
  },
  {
    // 16 apart along the head, and each machine is 22 long: they lie over each other by 6.
    file: "tuners-too-close",
    part: "headstock",
    id: "tuners-apart",
    severity: "stop",
    measured: -6,
    within: 1e-6,
    needed: 0,
    at: ({ x }) => x < 0,
    says: /overlap/,
  },
  {
    // 24 behind the saddle in a bridge that ends 20 behind it: the middle is 4 out, its hole of 5 reaches 2.5 farther; the slant of the saddle
    // takes the outer pin up to 1 farther still.
    file: "pins-out-of-the-bridge",
    part: "bridge",
    id: "pin-wood/edge",
    severity: "stop",
    measured: -7,
    within: 0.6,
    needed: 4,
    at: ({ x, y }) => x > 665 && Math.abs(y) > 20,
    says: /between pin \d and the edge/,
  },
  // 1.2 thick, 1.5 deep.
  {
    file: "pocket-through-the-plate",
    part: "inlay",
    id: "depth",
    severity: "stop",
    measured: -0.3,
    within: 1e-9,
    needed: 0.6,
    says: /right through/,
  },
  {
    // The guard runs past the middle of the bridge, which is 33.5 from front to back: where it is deepest it is 16.75 in.
    file: "pickguard-under-the-bridge",
    part: "pickguard",
    id: "guard-bridge",
    severity: "stop",
    measured: 16.75,
    within: 0.02,
    needed: 5,
    shape: "outline",
    at: ({ x, y }) => x > 650 && x < 660 && y > 25 && y < 85,
    says: /under the bridge/,
  },
  {
    file: "slots-into-the-binding",
    part: "fingerboard",
    id: "tang-binding",
    severity: "look",
    measured: 0,
    within: 1e-9,
    needed: 0.3,
    says: /short of the binding/,
  },
  {
    // (60 - 6) / 2 = 27, more than half of the board at the nut.
    file: "guide-bush-too-large",
    part: "fingerboard",
    id: "template-made/blank-outline/swallowed",
    severity: "stop",
    measured: 27,
    within: 1e-9,
    at: ({ x, y }) => x > -5 && x < 460 && Math.abs(y) < 35,
    says: /moved by .* lost on the way/,
  },
  {
    // Worked from the handbook's figures beside this list's test.
    file: "cross-grain-plate",
    part: "headstock",
    id: "seasons/plate-on-head",
    severity: "look",
    measured: 0.749,
    within: 0.01,
    needed: 0.5,
    shape: "outline",
    says: /slide/,
  },
];
