/**
 * What a string is made of, and what follows: its mass, its tension, how stiff it is.
 *
 *   plain      mu = rho pi d²/4
 *   wound      mu = rho_c pi c²/4 + rho_w pi² (c + w) w / 4,  w = (d - c)/2: one layer of round wire, turns touching
 *   tension    T = mu (2 L f)²
 *   stiffness  lambda = sqrt(E I / T),  I = pi c⁴/64 of the core: a clamped end sounds as if the string were lambda shorter
 *
 * Source: Fletcher and Rossing, The Physics of Musical Instruments, 2nd ed., chapter 2 (from memory), and geometry;
 * lambda is the first-order term of their clamped stiff string.
 */

/** A core or wrap material; the figures are handbook values from memory unless `mark` says otherwise. */
export interface StringMaterial {
  readonly name: string;
  readonly densityKgM3: number;
  readonly modulusGPa: number;
  readonly mark: string;
}

const REMEMBERED = "handbook value, from memory";

export const CORE_MATERIALS = {
  steel: {
    name: "music wire (ASTM A228)",
    densityKgM3: 7850,
    modulusGPa: 200,
    mark: "200-210 GPa from memory; one database read gives 190",
  },
  nylon: { name: "nylon", densityKgM3: 1140, modulusGPa: 4, mark: "from memory; 2.5-5 GPa, rising with draw and strain" },
  fluorocarbon: { name: "fluorocarbon (PVDF)", densityKgM3: 1780, modulusGPa: 4, mark: "from memory; 2-6 GPa" },
} as const satisfies Record<string, StringMaterial>;

export const WRAP_MATERIALS = {
  "phosphor-bronze": { name: "phosphor bronze (C51000)", densityKgM3: 8800, modulusGPa: 110, mark: REMEMBERED },
  brass: { name: "80/20 brass", densityKgM3: 8670, modulusGPa: 110, mark: REMEMBERED },
  "silvered-copper": { name: "silvered copper", densityKgM3: 8960, modulusGPa: 120, mark: REMEMBERED },
  nickel: { name: "nickel-plated steel", densityKgM3: 7900, modulusGPa: 200, mark: REMEMBERED },
} as const satisfies Record<string, StringMaterial>;

/** A string: over its wrap `diameter`, its `core` (the same for a plain string), mm; a plain string has no wrap. */
export interface StringBuild {
  readonly diameter: number;
  readonly core: number;
  readonly coreMaterial: StringMaterial;
  readonly wrapMaterial?: StringMaterial;
}

/** Over the wrap and core, mm: .024/.013, .032/.014, .042/.015 and .053/.016 in, of a usual light steel set. */
const STEEL_CORES: readonly (readonly [number, number])[] = [
  [0.6096, 0.3302],
  [0.8128, 0.3556],
  [1.0668, 0.381],
  [1.3462, 0.4064],
];

/**
 * A wound steel string's core (mm) where nobody has measured it: on straight lines through a usual light set, never over
 * 0.6 of the whole. An assumption: the packet rarely says, and 0.05 mm of it shifts a low E's saddle by about 0.9 mm.
 */
export function assumedSteelCore(diameter: number): number {
  if (!(diameter > 0 && diameter < Infinity)) throw new RangeError("assumedSteelCore: the diameter must be above 0");
  const above = STEEL_CORES.findIndex(([over]) => over >= diameter);
  const upper = above < 0 ? STEEL_CORES.length - 1 : Math.max(above, 1);
  const [d0, c0] = STEEL_CORES[upper - 1]!;
  const [d1, c1] = STEEL_CORES[upper]!;
  return Math.min(c0 + ((c1 - c0) * (diameter - d0)) / (d1 - d0), 0.6 * diameter);
}

/**
 * A wound nylon string's core of floss (mm), three fifths of the whole. An assumption that leaves the usual three basses
 * at 50 to 80 N; floss bends more easily than the solid core it stands for.
 */
export function assumedNylonCore(diameter: number): number {
  if (!(diameter > 0 && diameter < Infinity)) throw new RangeError("assumedNylonCore: the diameter must be above 0");
  return 0.6 * diameter;
}

/** kg for a metre of string; diameter and core above 0, the core no more than the whole and less where there is a wrap. */
export function massKgPerM({ diameter, core, coreMaterial, wrapMaterial }: StringBuild): number {
  if (!(core > 0 && core <= diameter && diameter < Infinity)) throw new RangeError("massKgPerM: needs 0 < core <= diameter");
  if (wrapMaterial ? core === diameter : core !== diameter) throw new RangeError("massKgPerM: a wrap is what lies over the core");
  const wrap = (diameter - core) / 2;
  const ofCore = (coreMaterial.densityKgM3 * Math.PI * core * core) / 4;
  const ofWrap = wrapMaterial ? (wrapMaterial.densityKgM3 * Math.PI * Math.PI * (core + wrap) * wrap) / 4 : 0;
  return (ofCore + ofWrap) / 1e6;
}

/** Pull in newtons of an ideal string of `length` mm at `frequencyHz`; all above 0. */
export function tensionN(massKgM: number, length: number, frequencyHz: number): number {
  if (!(massKgM > 0 && length > 0 && frequencyHz > 0))
    throw new RangeError("tensionN: mass, length and frequency must be above 0");
  return massKgM * ((2 * length * frequencyHz) / 1000) ** 2;
}

/** Pull (N) that stretches the string's core by the whole of its length again: E times its section. */
export const stretchN = ({ core, coreMaterial }: StringBuild): number =>
  coreMaterial.modulusGPa * 1000 * ((Math.PI * core * core) / 4);

/** E I of the core in N mm², what resists bending; the wrap is left out. */
export const bendingNmm2 = ({ core, coreMaterial }: StringBuild): number =>
  coreMaterial.modulusGPa * 1000 * ((Math.PI * core ** 4) / 64);

/** lambda in mm: how much shorter a string under `pullN` (above 0) sounds for each clamped end. */
export function stiffnessLength(build: StringBuild, pullN: number): number {
  if (!(pullN > 0)) throw new RangeError("stiffnessLength: the tension must be above 0");
  return Math.sqrt(bendingNmm2(build) / pullN);
}
