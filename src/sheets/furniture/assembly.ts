/** How the sheets of one template go together: the template small, its joints and the sheets' letters on it, with the words beside. */
import { rectangle } from "../../geometry/path.ts";
import { compose, scaling, transformPath, transformPoint, translation } from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import type { InkGrid } from "../grid.ts";
import { textWidth } from "../lettering.ts";
import { placementMap } from "../placement.ts";
import type { Plan } from "../plan.ts";
import { frameOf, gridBounds } from "../frames.ts";
import { tagOf } from "./joints.ts";
import type { Block } from "./notes.ts";
import { SMALL, type Pen } from "./pen.ts";

/** Largest size of the picture, mm. */
const WIDE = 62;
const HIGH = 40;
const APART = 3;

type Joined = Pick<Plan, "grid" | "size" | "members" | "ink">;

/** A picture of the joined sheets beside each of `blocks`. */
export function besideAssembly(plan: Joined, blocks: readonly Block[]): Block[] {
  const bounds = gridBounds(plan.grid, plan.size);
  const scale = Math.min(WIDE / (bounds.maxX - bounds.minX), HIGH / (bounds.maxY - bounds.minY));
  const width = (bounds.maxX - bounds.minX) * scale;
  const high = (bounds.maxY - bounds.minY) * scale;
  return blocks.map((words) => {
    const height = Math.max(high + 4, words.height);
    return {
      width: width + APART + words.width,
      height,
      draw: (pen, x, y) => {
        drawAssembly(pen, x + 1, y + height - 2 - high, scale, plan);
        words.draw(pen, x + width + APART, y + height - words.height);
      },
    };
  });
}

function drawAssembly(pen: Pen, x: number, y: number, scale: number, { grid, size, members, ink }: Joined): void {
  const bounds = gridBounds(grid, size);
  const toPicture = compose(translation(vec(-bounds.minX, -bounds.minY)), scaling(scale), translation(vec(x, y)));
  pen.layer("assembly");
  for (const cell of grid.cells) {
    const { x0, y0, x1, y1 } = frameOf(grid, size, cell);
    // The part of each sheet that stays in sight.
    const last = grid.cells.every(({ row, column }) => row !== cell.row || column <= cell.column);
    const lowest = grid.cells.every(({ row, column }) => column !== cell.column || row <= cell.row);
    const seen = transformPath(toPicture, rectangle(x0, y0 + (lowest ? 0 : size.overlap), x1 - (last ? 0 : size.overlap), y1));
    pen.path(seen, "hidden", `sheet ${tagOf(cell)}`);
    const { x, y } = tagCorner(vec(x0, y0 + (lowest ? 0 : size.overlap)), y1, tagOf(cell), scale, ink);
    const corner = transformPoint(toPicture, vec(x, y));
    pen.text(corner.x, corner.y, tagOf(cell), SMALL, { strong: true });
  }
  for (const { template, at } of members) {
    const shapes = template.drawing.layers.flatMap((layer) => layer.shapes);
    const shown = shapes.filter((shape) => (template.edge ? shape.id === template.edge : shape.line === "visible"));
    const map = compose(placementMap(at), toPicture);
    for (const shape of shown) pen.path(transformPath(map, shape.path), "narrow", shape.name);
  }
}

/** Where a sheet's letters stand in its lower or upper left corner, in the grid's coordinates: off the ink where that can be. */
function tagCorner(low: Vec, top: number, tag: string, scale: number, ink: InkGrid): Vec {
  const [wide, high, off] = [textWidth(tag, SMALL) / scale, SMALL / scale, 1 / scale];
  const corners = [vec(low.x + off, low.y + off), vec(low.x + off, top - off - high)];
  return corners.find(({ x, y }) => !ink.touches(x - off / 2, y - off / 2, x + wide, y + high + off / 2)) ?? corners[0]!;
}
