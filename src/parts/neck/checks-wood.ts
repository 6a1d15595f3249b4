/** Whether enough wood is left round the channels. Carving into one loses the neck. */
import { vec } from "../../geometry/vec.ts";
import { channelAt } from "../../lutherie/neck-run.ts";
import type { Finding } from "../contract.ts";
import { GEOMETRY, PRACTICE, atLeast, fine } from "../finding.ts";
import { whereIs, type NeckCheck } from "./finding.ts";
import { modelOf, type NeckModel } from "./model.ts";
import { instrumentOf } from "./numbers.ts";
import { woodUnderEntry, type ChannelMeasure, type NeckMeasures } from "./measure.ts";
import { seenWall } from "./section-row.ts";
import { LEAST_BEHIND, USUAL_BESIDE } from "./stops.ts";

const BEHIND_BASIS = `at least 3 mm (1/8 in) behind any channel: ${PRACTICE}`;

const woodBehind: NeckCheck = {
  id: "wood-behind",
  title: "Wood left behind the channels",
  limits: { least: { label: "Least wood behind a channel", value: LEAST_BEHIND, quantity: "length", basis: BEHIND_BASIS } },
  run: ({ p, m, from, limits }) => {
    const model = modelOf(p, from);
    const needed = limits["least"]!;
    return m.channels.flatMap(({ behind, id, name }: ChannelMeasure): Finding[] => {
      if (!behind) return [];
      const where = whereIs(model, behind.x);
      return [
        atLeast({
          id: `wood-behind/${id}`,
          measured: behind.distance,
          needed,
          stopBelow: needed,
          fine: `At least {measured} of wood is left behind the ${name}, least ${where}.`,
          short:
            behind.distance <= 0
              ? `The ${name} breaks through the back of the neck ${where}: its corner lies {measured} from the back.`
              : `Only {measured} of wood is left behind the ${name} ${where}; carving there can lose the neck.`,
          mend:
            id === "pocket"
              ? "Make the pocket narrower or shallower, the head thicker, or leave a volute."
              : "Make the neck deeper there, its shoulders fuller, or the channel shallower.",
          basis: BEHIND_BASIS,
          ...seenWall(m, model, {}, id, behind, "behind"),
        }),
      ];
    });
  },
};

const underEntry: NeckCheck = {
  id: "wood-under-entry",
  title: "Wood left under the rod's end in the head",
  limits: {
    least: { label: "Least wood under the rod's end", value: LEAST_BEHIND, quantity: "length", basis: BEHIND_BASIS },
  },
  run: ({ p, m, from, limits }) => {
    if (m.woodUnderEntry === undefined) return [];
    const model = modelOf(p, from);
    const wall = woodUnderEntry(p, model)!;
    const needed = limits["least"]!;
    const where = whereIs(model, wall.x);
    return [
      atLeast({
        id: "wood-under-entry",
        measured: m.woodUnderEntry,
        needed,
        stopBelow: needed,
        fine: `At least {measured} of wood is left under the rod's end ${where}.`,
        short:
          wall.distance <= 0
            ? `The rod's end breaks through the back ${where}.`
            : `Only {measured} of wood is left under the rod's end ${where}, where the head breaks first.`,
        mend: "Leave a volute, make the head or the neck deeper, or the pocket shallower.",
        basis: BEHIND_BASIS,
        ...seenWall(m, model, {}, wall.id, wall, "behind"),
      }),
    ];
  },
};

const woodBeside: NeckCheck = {
  id: "wood-beside",
  title: "Wood left beside the channels",
  limits: {
    least: { label: "Least wood beside a channel", value: 1, quantity: "length", basis: PRACTICE },
    usual: { label: "Usual wood beside a channel", value: USUAL_BESIDE, quantity: "length", basis: PRACTICE },
  },
  run: ({ p, m, from, limits }) => {
    const model = modelOf(p, from);
    return m.channels.flatMap(({ id, name, beside }): Finding[] => {
      if (!beside) return [];
      const where = whereIs(model, beside.x);
      return [
        atLeast({
          id: `wood-beside/${id}`,
          measured: beside.distance,
          needed: limits["usual"]!,
          stopBelow: limits["least"]!,
          fine: `At least {measured} of wood is left beside the ${name}, least ${where}.`,
          short:
            beside.distance <= 0
              ? `The ${name} runs out of the side of the neck ${where}.`
              : `Only {measured} of wood is left beside the ${name} ${where}.`,
          mend: "Bring the channel nearer to the centre line, or make it narrower.",
          basis: PRACTICE,
          ...seenWall(m, model, { "wood-beside": limits }, id, beside, "beside"),
        }),
      ];
    });
  },
};

const woodBetween: NeckCheck = {
  id: "wood-between",
  title: "Wood left between channels",
  limits: { least: { label: "Least wood between two channels", value: 2, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, from, limits }) => {
    const { between } = m;
    if (!between) return [];
    const model = modelOf(p, from);
    const [a, b] = between.ids.map((id) => m.channels.find((channel) => channel.id === id)!.name);
    const where = whereIs(model, between.x);
    return [
      atLeast({
        id: "wood-between",
        measured: between.distance,
        needed: limits["least"]!,
        stopBelow: 0,
        fine: `At least {measured} of wood is left between channels, least between the ${a} and the ${b}.`,
        short:
          between.distance <= 0
            ? `The ${a} and the ${b} run into each other ${where}.`
            : `Only {measured} of wood is left between the ${a} and the ${b} ${where}.`,
        mend: "Set the bars further from the centre line.",
        basis: PRACTICE,
        at: vec(between.x, model.instrument.side * gapMiddle(model, between)),
        shape: between.ids[1],
      }),
    ];
  },
};

/** Across, half way from the one channel to the other. */
function gapMiddle({ channels }: NeckModel, { x, ids }: NonNullable<NeckMeasures["between"]>): number {
  const edges = ids.map((id) => {
    const { middle, width } = channelAt(channels.find((channel) => channel.id === id)!.run, x);
    return { middle, low: middle - width / 2, high: middle + width / 2 };
  });
  const [low, high] = edges.toSorted((a, b) => a.middle - b.middle);
  return (low!.high + high!.low) / 2;
}

const channelPlaces: NeckCheck = {
  id: "channel-places",
  title: "The channels lie in the neck",
  limits: {},
  run: ({ p, m, from }) => {
    const asked = (p.rod === "none" ? 0 : 1) + p.bars.length;
    if (asked === 0) return [];
    const findings: Finding[] = [];
    const has = (id: string): boolean => m.channels.some((channel) => channel.id === id);
    const lost = [
      ...(p.rod !== "none" && !has("rod") ? [{ id: "rod", name: "rod's channel" }] : []),
      ...p.bars.flatMap((_, i) => (has(`bar-${i + 1}`) ? [] : [{ id: `bar-${i + 1}`, name: `channel of bar ${i + 1}` }])),
    ];
    for (const { id, name } of lost)
      findings.push({
        id: `channel-places/${id}`,
        severity: "stop",
        says: `The ${name} ends before it begins.`,
        basis: GEOMETRY,
        mend: "Check where it begins and ends.",
      });
    const rod = m.channels.find(({ id }) => id === "rod");
    const board = from.get("fingerboard")?.endX ?? m.joinX;
    if (rod && rod.to > board + 1e-6)
      findings.push({
        id: "channel-places/rod-end",
        severity: "look",
        says: "The rod's channel runs {measured} beyond the end of the board.",
        measured: rod.to - board,
        needed: 0,
        bound: "most",
        quantity: "length",
        basis: GEOMETRY,
        mend: "Make the channel shorter.",
        at: vec(rod.to, 0),
        shape: "rod",
      });
    else if (rod && p.rod === "head" && rod.to > m.joinX + m.tongueLength + 1e-6)
      findings.push({
        id: "channel-places/rod-end",
        severity: "stop",
        says: "The rod's channel runs {measured} beyond the wood of the neck.",
        measured: rod.to - m.joinX - m.tongueLength,
        needed: 0,
        bound: "most",
        quantity: "length",
        basis: GEOMETRY,
        mend: "Make the channel shorter, or have the rod adjusted at the body.",
        at: vec(rod.to, 0),
        shape: "rod",
      });
    if (findings.length > 0) return findings;
    const side = instrumentOf(from).side;
    return [
      {
        ...fine("channel-places", "Every channel begins and ends in the neck."),
        ...(m.channels[0] ? { shape: m.channels[0].id, at: vec(m.channels[0].from, side * m.channels[0].middleFrom) } : {}),
      },
    ];
  },
};

export const woodChecks: readonly NeckCheck[] = [woodBehind, underEntry, woodBeside, woodBetween, channelPlaces];
