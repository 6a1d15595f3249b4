/** The heel and what holds it. */
import { vec, type Vec } from "../../geometry/vec.ts";
import type { Finding } from "../contract.ts";
import { GEOMETRY, PRACTICE, atLeast, fine } from "../finding.ts";
import type { NeckCheck } from "./finding.ts";
import { heelHalfWidth, jointTemplates, tongueOf, woodRoundInsert } from "./joint.ts";
import { modelOf } from "./model.ts";
import { onSideView } from "./section-row.ts";

const heel: NeckCheck = {
  id: "heel",
  title: "The heel has a shape",
  limits: { foot: { label: "Least width of the foot", value: 12, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, from, limits }) => {
    const model = modelOf(p, from);
    const findings: Finding[] = [];
    const at = onSideView(model, model.heel.foot, -model.heel.depth);
    const stop = { severity: "stop", quantity: "length", basis: GEOMETRY, shape: "side-outline", at } as const;
    const wood = model.profile.depthAt(model.heel.from);
    if (p.heelDepth <= wood)
      findings.push({
        ...stop,
        id: "heel/depth",
        says: "The heel is {measured} deep, and the neck itself {needed} where it begins.",
        measured: p.heelDepth,
        needed: wood,
        bound: "least",
        mend: "Make the heel deeper.",
      });
    const needed = p.heelCapLength + Math.max(0, model.heel.undercut) + 1;
    if (p.heelLength < needed)
      findings.push({
        ...stop,
        id: "heel/length",
        says: "The heel is {measured} long; its foot and the undercut take {needed}.",
        measured: p.heelLength,
        needed,
        bound: "least",
        mend: "Make the heel longer or its foot shorter.",
      });
    if (p.heelCapWidth > m.widthAtJoin + 1e-9)
      findings.push({
        ...stop,
        severity: "look",
        id: "heel/width",
        says: "The foot is {measured} wide, wider than the neck at the join, {needed}.",
        measured: p.heelCapWidth,
        needed: m.widthAtJoin,
        bound: "most",
        mend: "Make the foot narrower.",
      });
    else if (p.heelCapWidth < limits["foot"]!)
      findings.push({
        ...stop,
        severity: "look",
        basis: PRACTICE,
        id: "heel/width",
        says: "The foot is only {measured} wide.",
        measured: p.heelCapWidth,
        needed: limits["foot"]!,
        bound: "least",
        mend: "Make the foot wider.",
      });
    if (findings.length > 0) return findings;
    return [
      {
        ...fine(
          "heel",
          "The heel is {measured} deep and its foot is cut back by {needed} for the pitch.",
          GEOMETRY,
          "side-outline",
        ),
        measured: m.heelDepth,
        needed: m.heelUndercut,
        bound: "least",
        quantity: "length",
      },
    ];
  },
};

const tongue: NeckCheck = {
  id: "tongue",
  title: "Tongue, heel and block fit each other",
  limits: {
    cheek: { label: "Least heel beside the tongue", value: 4, quantity: "length", basis: PRACTICE },
    root: { label: "Least width of a tongue at its root", value: 8, quantity: "length", basis: PRACTICE },
    block: { label: "Least block behind the tongue", value: 6, quantity: "length", basis: PRACTICE },
  },
  run: ({ p, m, from, limits }) => {
    const model = modelOf(p, from);
    const part = tongueOf(p, model);
    if (!part) return [];
    const word = p.joint === "dovetail" ? "dovetail" : "tenon";
    const at = vec(m.joinX, 0);
    const cheek = Math.min(
      ...[0, 0.5, 1].map((t) => heelHalfWidth(p, model, t * part.depth) - (part.rootTop + (part.rootFoot - part.rootTop) * t)),
    );
    return [
      atLeast({
        id: "tongue/cheek",
        measured: cheek,
        needed: limits["cheek"]!,
        stopBelow: 0.5,
        fine: `At least {measured} of the heel rests on the body on either side of the ${word}.`,
        short: `Only {measured} of the heel rests on the body beside the ${word}.`,
        mend: `Make the ${word} narrower or shorter downwards, or the heel wider.`,
        basis: PRACTICE,
        at,
        shape: "outline",
      }),
      atLeast({
        id: "tongue/root",
        measured: 2 * part.rootFoot,
        needed: limits["root"]!,
        stopBelow: 2,
        fine: `The ${word} is at least {measured} wide at its root.`,
        short: `The ${word} is only {measured} wide at its root, at the lower end.`,
        mend: `Make the ${word} wider, or its flare and taper less.`,
        basis: PRACTICE,
        at,
        shape: "outline",
      }),
      atLeast({
        id: "tongue/block",
        measured: p.blockThickness - part.length,
        needed: limits["block"]!,
        stopBelow: 0,
        fine: `Behind the ${word} {measured} of the block is left.`,
        short: `Behind the ${word} only {measured} of the block is left.`,
        mend: `Make the ${word} shorter or the block thicker.`,
        basis: PRACTICE,
        at: vec(m.joinX + part.length, 0),
        shape: "outline",
      }),
    ];
  },
};

const bush: NeckCheck = {
  id: "joint-bush",
  title: "One bush cuts both halves of the joint",
  limits: {},
  run: ({ p, m, from }) => {
    if (p.joint === "butt") return [];
    const at = vec(m.joinX, 0);
    if (!(p.bush > p.bit))
      return [
        {
          id: "joint-bush",
          severity: "stop",
          says: "The bush of {measured} does not let a bit of {needed} through.",
          measured: p.bush,
          needed: p.bit,
          bound: "least",
          quantity: "length",
          basis: GEOMETRY,
          mend: "Use a larger bush or a smaller bit.",
          at,
        },
      ];
    if (m.tongueFootWidth < p.bit)
      return [
        {
          id: "joint-bush",
          severity: "stop",
          says: "The mortise is {measured} wide at its lower end, and the bit {needed}.",
          measured: m.tongueFootWidth,
          needed: p.bit,
          bound: "least",
          quantity: "length",
          basis: GEOMETRY,
          mend: "Use a smaller bit, or make the tongue wider.",
          at,
        },
      ];
    if (!jointTemplates(p, modelOf(p, from)))
      return [
        {
          id: "joint-bush",
          severity: "stop",
          says: "The tongue is too narrow at its root, {measured}, for the round corners of a bit of {needed} in this bush.",
          measured: m.tongueRootWidth,
          needed: p.bit,
          bound: "least",
          quantity: "length",
          basis: GEOMETRY,
          mend: "Make the tongue wider, or use a bush nearer to its bit.",
          at,
        },
      ];
    return [
      {
        ...fine("joint-bush", "A bush of {measured} with a bit of {needed} cuts the mortise and the tongue."),
        measured: p.bush,
        needed: p.bit,
        bound: "least",
        quantity: "length",
      },
    ];
  },
};

const bolts: NeckCheck = {
  id: "bolts",
  title: "Bolts and inserts sit in wood",
  limits: {
    round: { label: "Least wood beside an insert", value: 3, quantity: "length", basis: PRACTICE },
    rod: { label: "Least wood between an insert and the rod's channel", value: 3, quantity: "length", basis: PRACTICE },
  },
  run: ({ p, m, from, limits }) => {
    if (m.bolts.length === 0) return [];
    const model = modelOf(p, from);
    const insert = (i: number): Vec => onSideView(model, m.joinX, -m.bolts[i]!);
    const radius = p.insertDiameter / 2;
    const round = m.bolts.map((down, i) => ({
      i,
      wood: Math.min(woodRoundInsert(p, model, down), m.heelDepth - down - radius),
    }));
    const tight = round.reduce((a, b) => (b.wood < a.wood ? b : a));
    const findings: Finding[] = [
      atLeast({
        id: "bolts/round",
        measured: tight.wood,
        needed: limits["round"]!,
        stopBelow: 0.5,
        fine: "At least {measured} of wood is left round every insert.",
        short: `Only {measured} of wood is left round insert ${tight.i + 1}.`,
        mend: "Use a smaller insert, or move the bolt.",
        basis: PRACTICE,
        at: insert(tight.i),
        shape: `side-insert-${tight.i + 1}`,
      }),
    ];
    const gap = p.boltSpacing - p.insertDiameter;
    if (m.bolts.length > 1 && gap < limits["round"]!)
      findings.push(
        atLeast({
          id: "bolts/apart",
          measured: gap,
          needed: limits["round"]!,
          stopBelow: 0,
          fine: "Inserts stand {measured} apart.",
          short: "Only {measured} of wood is left between two inserts.",
          mend: "Set the bolts further apart.",
          basis: PRACTICE,
          at: insert(1),
          shape: "side-insert-2",
        }),
      );
    // The insert reaches back into the heel from the face that the bolt comes through.
    const first = m.bolts[0]!;
    const back = m.joinX + (m.tongueLength > 0 && first < m.tongueDepth ? m.tongueLength : 0) - p.insertDepth;
    const over = m.channels.filter(({ to, middleTo, width }) => to > back && Math.abs(middleTo) - width / 2 < radius);
    const floor = Math.max(0, ...over.map(({ depthFrom, depthTo }) => Math.max(depthFrom, depthTo)));
    findings.push(
      atLeast({
        id: "bolts/rod",
        measured: first - radius - floor,
        needed: limits["rod"]!,
        stopBelow: 0,
        fine: `The first insert lies {measured} below ${floor > 0 ? "the channel over it" : "the board"}.`,
        short: `The first insert lies only {measured} below ${floor > 0 ? "the channel over it" : "the board"}.`,
        mend: "Move the first bolt down.",
        basis: PRACTICE,
        at: insert(0),
        shape: "side-insert-1",
      }),
    );
    return findings;
  },
};

export const jointChecks: readonly NeckCheck[] = [heel, tongue, bush, bolts];
