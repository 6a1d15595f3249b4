/**
 * Every tolerance of the kernel, in mm unless the name says otherwise. What a maker cuts is good to about 0.05 mm and a file promises
 * 0.01 mm; the shares below add up to less than that: flatten 0.001 + arcs of an offset 0.001 + grid 0.00007 + sides too short for the grid
 * 0.0005 + thinning 0.0008 + refit 0.003 = 0.0064.
 */

/** Greatest distance between a curve and the chords that stand for it in clipping. */
export const FLATTEN = 0.001;

/** Greatest distance between the round joins of an offset and their chords. */
export const OFFSET_ARC = 0.001;

/**
 * Integer units a mm in the clipping library. One unit is a hundredth of the promised accuracy, and outlines up to 9.4 m across stay
 * in the range (47,453,132 units either side of the centre) in which the library multiplies without big integers.
 */
export const GRID_PER_MM = 10_000;

/** Side of one cell of the clipping grid, mm. What is thinner than this is noise of the grid. */
export const GRID = 1 / GRID_PER_MM;

/**
 * Sides shorter than this are left out before an offset, mm: the grid turns their direction so much that a sharp tip beside one may be taken for
 * a hollow and lose its round.
 */
export const SHORT_SIDE = 5 * GRID;

/**
 * How far a point of a ring may lie from the chord that replaces it. Above the noise of the grid (0.00007), so that the noise goes;
 * below FLATTEN, so that thinning costs less than flattening did.
 */
export const THIN = 0.0008;

/** Greatest distance between a thinned ring and the lines, arcs and cubics fitted to it. */
export const REFIT = 0.003;

/** Greatest distance between the points of a ring and the arcs that stand for it while it is filtered and moved: half of what flattening took. */
export const ARC_REFIT = 0.0005;

/** Turn of a ring, in radians, from which a point is a corner to be kept sharp: well above what a flattened curve turns at a point. */
export const CORNER_TURN = (35 * Math.PI) / 180;

/** Points nearer than this are one point: far above rounding at 10 m (2e-12), far below anything that can be drawn. */
export const SAME_POINT = 1e-7;

/** Sine of the angle below which two directions are taken as parallel: 0.0000001 mm over a metre. */
export const PARALLEL_SINE = 1e-10;

/** Greatest distance between an arc and the cubics that replace it where an arc cannot stand (squeezed circles). */
export const ARC_AS_CUBICS = 1e-5;

/** Where two curves cross, distances are settled to this. */
export const CROSSING = 1e-9;

/** How far the points of a ring may stand off the arc they are recognised as: a few cells of the clipping grid. */
export const ARC_POINTS = 0.0003;

/** An edge that an offset misses by less than this is not called swallowed: the chords' share of the error, with some room. */
export const SWALLOWED = 0.005;
