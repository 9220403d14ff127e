// Every epsilon of core, nest and the judges, with its reason. Nothing compares with a literal of its own.

/** Two computed points are one: floating point over a frame of some meters loses about 1e-12 of it. */
export const samePoint = 1e-6

/** Two slopes or unit-vector components are equal: angles are typed to 0.001° at the finest, 1.7e-5 as a slope. */
export const sameSlope = 1e-9

/** Two printed lengths are equal: the finest reading is 0.01 mm, the whole step 1/1600 mm. */
export const sameLength = 1e-6

/** A derived length within this of a whole step (1/1600 mm) is that step: 1e-6 mm, as the documents say. */
export const stepSlack = 1e-6

/** Rounding counts a value this near to a half step, in steps, as the tie that the person typed: 244.475 is stored lower. */
export const tieSlack = 1e-9

/** An angle this near to a whole, half, quarter or tenth of a degree is that one: 180/n in floating point. */
export const sameAngle = 1e-9

/** A linear program of the nest is solved when no column saves more than this share of the dearest stick; proofs do
 * not lean on it: they are checked in whole numbers. */
export const dualSlack = 1e-9

/** Entries of a column below this are rounding, and no pivot. */
export const pivotLeast = 1e-9

/** Amounts in a linear program within this of a whole number are that number: they come from some hundred pivots. */
export const wholeSlack = 1e-6

/** What adding some hundred lengths of a stick in floating point may put on the sum, mm: 100 × 10 m × 2^-53, and room. */
export const addedUp = 1e-9

/** A point lies on a member's axis, or on another point, when it is this near, mm: typed to 1/64 in, a point of a leaning
 * member lies up to 0.2 mm beside its axis each way, 0.34 mm in space. */
export const onAxis = 0.5

/** A splay that a person typed comes back from the planes of a leg within this, degrees: some ten rotations in floating
 * point lose about 1e-12 of it, saved lengths of 1/1600 mm none, since slopes are not rounded. */
export const typedAngle = 1e-7

/** Two pieces of one geometry key differ by less than this at any corner, mm: a key counts in steps of 1/1600 mm, and an
 * edge lies between two of them. */
export const sameKey = 4 / 1600

/** A sheet is of the thickness asked for when it lies within this, mm: sheet gauges lie 0.15 mm apart at the
 * nearest, and 1.5 mm typed for 16 ga (1.519) is that sheet. */
export const sameSheet = 0.05

/** Two turnings of an outline are one: sides of equal direction come out of floating point this near, radians. */
export const sameTurn = 1e-9
