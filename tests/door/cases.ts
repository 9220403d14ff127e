// One change each to the sound file of sample.ts. tests/door/schema.test.ts puts the same list through the JSON Schema,
// so that the door and the published schema cannot drift apart.

export interface Case {
  readonly path: string
  /** Undefined: the field is taken out. */
  readonly value: unknown
}

export interface Refused extends Case {
  /** Words of the refusal: what was given and what is possible. */
  readonly says: string
}

/** Values at the edge of what is possible: both door and schema take them. */
export const taken: readonly Case[] = [
  { path: 'job.quantity', value: 1 },
  { path: 'job.quantity', value: 1000 },
  { path: 'job.units', value: undefined },
  { path: 'job.note', value: '' },
  { path: 'job.build.params.size', value: 457.2 },
  { path: 'job.build.params.size', value: '' },
  { path: 'job.build.params.size', value: '7/0' },
  { path: 'job.build.params.size', value: -3 },
  { path: 'job.build.params.rows', value: [] },
  { path: 'job.build.params.section', value: { kind: 'square-tube', width: 40, wall: 3, cornerRadius: 0 } },
  { path: 'job.build.kind', value: 'a build of a later day' },
  { path: 'shop', value: undefined },
  { path: 'nests', value: undefined },
  { path: 'facts', value: [] },
  { path: 'shop.saws.0.cleanUp', value: 0 },
  { path: 'shop.saws.0.cleanUp', value: 2.5 },
  { path: 'shop.saws.0.limits.bevel', value: 0 },
  { path: 'shop.saws.0.limits.towardStop', value: 89.9 },
  { path: 'shop.sections', value: [] },
  { path: 'shop.sections.0.rate', value: undefined },
  { path: 'shop.sections.0.rate', value: { per: 'foot', cents: 0 } },
  { path: 'shop.sheets', value: undefined },
  { path: 'shop.backupDays', value: 0 },
  { path: 'shop.backupDays', value: 365 },
  { path: 'shop.reading', value: { kind: 'mm', step: 0.1 } },
  { path: 'shop.reading', value: { kind: 'inch-decimal', places: 3 } },
  { path: 'nests.0.sections.0.proved', value: true },
  { path: 'nests.0.sections.0.demand.0.finished', value: true },
  {
    path: 'nests.0.sections.0.demand.0.makes',
    value: [
      [
        { piece: 'A1', mark: 'A', key: 'k', copy: 1, perCopy: 2, mid: 176 },
        { piece: 'A2', mark: 'A', key: 'k', copy: 1, perCopy: 2, mid: 176 },
      ],
    ],
  },
  { path: 'job.way', value: 'from the stick' },
  { path: 'job.way', value: undefined },
  { path: 'shop.tolerance', value: undefined },
  { path: 'shop.saws.0.gang', value: undefined },
  { path: 'facts.0.at', value: 'a clock gone wrong' },
  { path: 'facts.13.body', value: null },
  { path: 'facts.14.v', value: 900 },
]

/** Refused by the door and by the schema. */
export const refusedByShape: readonly Refused[] = [
  { path: 'job', value: undefined, says: 'job is missing' },
  { path: 'job', value: null, says: 'job is null; it must be a job: an object with id, name' },
  { path: 'job.id', value: '', says: 'job.id is ""; it must be text of 1 to 100 characters' },
  { path: 'job.id', value: 7, says: 'job.id is 7' },
  { path: 'job.name', value: undefined, says: 'job.name is missing; it must be text of 1 to 200 characters' },
  { path: 'job.name', value: 'x'.repeat(201), says: 'job.name is "xxxx' },
  { path: 'job.way', value: 'by eye', says: 'job.way is "by eye"; it must be "square first"' },
  { path: 'shop.saws.0.gang', value: 5, says: 'gang is 5; it must be a whole number from 1 to 4' },
  {
    path: 'shop.habitsOff',
    value: ['deburr', 'sweep'],
    says: 'habitsOff[1] is "sweep"; it must be "deburr", "chips"',
  },
  { path: 'job.units', value: 'cm', says: 'job.units is "cm"; it must be "in" or "mm"' },
  { path: 'job.quantity', value: 0, says: 'job.quantity is 0; it must be a whole number from 1 to 1000' },
  { path: 'job.quantity', value: 2.5, says: 'job.quantity is 2.5; it must be a whole number from 1 to 1000' },
  { path: 'job.quantity', value: -3, says: 'job.quantity is -3' },
  { path: 'job.quantity', value: 1001, says: 'job.quantity is 1001' },
  { path: 'job.quantity', value: null, says: 'job.quantity is null' },
  { path: 'job.quantity', value: '3', says: 'job.quantity is "3"' },
  {
    path: 'job.quantiti',
    value: 3,
    says: 'job.quantiti is not known; it must be left out: the fields of a job are',
  },
  { path: 'colour', value: 'red', says: 'colour is not known' },
  { path: 'job.way', value: 'by eye', says: 'job.way is "by eye"; it must be "square first"' },
  { path: 'job.build', value: 'frame', says: 'job.build is "frame"; it must be a build: an object' },
  { path: 'job.build.kind', value: '', says: 'job.build.kind is ""' },
  { path: 'job.build.params', value: [], says: 'job.build.params is an empty list' },
  {
    path: 'job.build.params.size',
    value: null,
    says: 'job.build.params.size is null; it must be a number of mm, or',
  },
  { path: 'job.build.params.size', value: 1_000_001, says: 'job.build.params.size is 1000001' },
  { path: 'job.build.params.size', value: '1'.repeat(101), says: 'it must be text of up to 100 characters' },
  { path: 'job.build.params.section', value: {}, says: 'job.build.params.section.kind is missing' },
  {
    path: 'job.build.params.section.kind',
    value: 'hex-bar',
    says: 'job.build.params.section.kind is "hex-bar"; it must be "square-tube", "rect-tube"',
  },
  {
    path: 'job.build.params.section.width',
    value: -40,
    says: 'job.build.params.section.width is -40; it must be a length over 0 mm',
  },
  { path: 'job.build.params.section.wall', value: -1, says: 'job.build.params.section.wall is -1' },
  { path: 'job.build.params.section.size', value: 4, says: 'job.build.params.section.size is not known' },
  { path: 'job.build.params.rows.0', value: 12, says: 'job.build.params.rows[0] is 12' },
  { path: 'job.build.params.rows.0.length', value: null, says: 'job.build.params.rows[0].length is null' },
  { path: 'job.build.params.rows.0.length', value: true, says: 'job.build.params.rows[0].length is true' },
  { path: 'shop', value: {}, says: 'shop.id is missing' },
  { path: 'shop', value: null, says: 'shop is null' },
  {
    path: 'shop.reading.denominator',
    value: 12,
    says: 'shop.reading.denominator is 12; it must be 8, 16, 32 or 64',
  },
  {
    path: 'shop.reading.kind',
    value: 'feet',
    says: 'shop.reading.kind is "feet"; it must be "inch-fraction"',
  },
  {
    path: 'shop.reading',
    value: null,
    says: 'shop.reading is null; it must be a reading: an object with kind',
  },
  {
    path: 'shop.backupDays',
    value: 366,
    says: 'shop.backupDays is 366; it must be a whole number from 0 to 365',
  },
  { path: 'shop.daylight', value: 1, says: 'shop.daylight is 1; it must be true or false' },
  {
    path: 'shop.saws',
    value: [],
    says: 'shop.saws is an empty list; it must be a list of saws, one at least',
  },
  { path: 'shop.saws.0.blades', value: [], says: 'a list of blades, one at least' },
  {
    path: 'shop.saws.0.blades.0.kerf',
    value: 0,
    says: 'shop.saws[0].blades[0].kerf is 0; it must be a length over 0',
  },
  {
    path: 'shop.saws.0.readsAtSquare',
    value: 45,
    says: 'shop.saws[0].readsAtSquare is 45; it must be 0 or 90',
  },
  {
    path: 'shop.saws.0.limits.towardStop',
    value: 90,
    says: 'is 90; it must be an angle from square of 0 to 89.9',
  },
  { path: 'shop.saws.0.limits.longestStop', value: 0, says: 'shop.saws[0].limits.longestStop is 0' },
  { path: 'shop.saws.0.minutes.cut', value: -1, says: 'it must be minutes, 0 to 600' },
  { path: 'shop.sections.0.section.width', value: '25.4', says: 'shop.sections[0].section.width is "25.4"' },
  { path: 'shop.sections.0.stock.0.length', value: -6096, says: 'is -6096; it must be a length over 0 mm' },
  { path: 'shop.sections.0.stock.0.count', value: 1.5, says: 'is 1.5; it must be a whole number from 0' },
  {
    path: 'shop.sections.0.stock.0.price',
    value: -1,
    says: 'is -1; it must be a price in whole cents, 0 or more',
  },
  { path: 'shop.sections.0.stock.0.price', value: 18.5, says: 'is 18.5; it must be a price in whole cents' },
  {
    path: 'shop.sections.0.rate.per',
    value: 'ton',
    says: 'it must be "foot", "meter", "pound" or "kilogram"',
  },
  { path: 'shop.sections.0.rate.cents', value: -1, says: 'it must be a price in cents, 0 to 1000000' },
  { path: 'shop.sheets.0.thickness', value: 0, says: 'shop.sheets[0].thickness is 0' },
  { path: 'shop.usualLengths', value: [], says: 'a list of stock lengths, one at least' },
  { path: 'shop.rootGap', value: 11, says: 'shop.rootGap is 11; it must be a root gap of 0 to 10 mm' },
  { path: 'shop.kerf', value: 2, says: 'shop.kerf is not known' },
  { path: 'nests.0.version', value: 2, says: 'nests[0].version is 2; it must be 1' },
  { path: 'nests.0.sections.0.kerf', value: -1, says: 'nests[0].sections[0].kerf is -1' },
  { path: 'nests.0.sections.0.demand.0.count', value: 0, says: 'nests[0].sections[0].demand[0].count is 0' },
  { path: 'nests.0.sections.0.demand.0.ends', value: [{ p: 0, q: 0 }], says: 'demand[0].ends' },
  {
    path: 'nests.0.sections.0.demand.0.turns.0',
    value: 'mirror',
    says: 'it must be "none", "over", "end" or "flip"',
  },
  {
    path: 'nests.0.sections.0.stock.1.ends.1',
    value: 'saw',
    says: 'ends[1] is "saw"; it must be "mill" or "cut"',
  },
  { path: 'nests.0.sections.0.stock.1.ends.1', value: { p: 2000, q: 0 }, says: 'a slope from -1000 to 1000' },
  {
    path: 'nests.0.sections.0.sticks.0.pieces.0.ends.0.x',
    value: null,
    says: 'it must be a place along the stick',
  },
  {
    path: 'nests.0.sections.0.sticks.0.drop',
    value: -0.5,
    says: 'drop is -0.5; it must be a length of 0 mm or more',
  },
  { path: 'facts', value: {}, says: 'facts is an object; it must be a list of facts' },
  { path: 'facts.0', value: null, says: 'facts[0] is null' },
  { path: 'facts.0.v', value: 0, says: 'facts[0].v is 0; it must be a whole number, 1 or more' },
  { path: 'facts.0.seq', value: -1, says: 'facts[0].seq is -1' },
  { path: 'facts.0.lamport', value: 1.5, says: 'facts[0].lamport is 1.5' },
  { path: 'facts.0.body.length', value: 0, says: 'facts[0].body.length is 0; it must be a length over 0 mm' },
  { path: 'facts.0.body.section.kind', value: 'tube', says: 'facts[0].body.section.kind is "tube"' },
  { path: 'facts.4.body.stage', value: 'slice', says: 'it must be "blank", "half" or "piece"' },
  { path: 'facts.4.body.from', value: {}, says: 'facts[4].body.from.stick is missing' },
  { path: 'facts.5.body.from.piece', value: 3, says: 'facts[5].body.from.piece is 3' },
  { path: 'facts.6.body', value: undefined, says: 'facts[6].body is missing; it must be' },
  { path: 'facts.13.body', value: undefined, says: 'facts[13].body is missing; it must be what happened' },
]

/** Refused by the door alone: rules between fields, which JSON Schema cannot say. */
export const refusedByDoorAlone: readonly Refused[] = [
  {
    path: 'shop.saws.0.blade',
    value: 'blade-9',
    says: 'shop.saws[0].blade is "blade-9"; it must be the id of one of its blades: "blade-1", "blade-2"',
  },
  { path: 'shop.saws.0.blades.1.id', value: 'blade-1', says: 'it must be blades with an id each of its own' },
  {
    path: 'shop.saws.0.cleanUp',
    value: 2.4,
    says: 'shop.saws[0].cleanUp is 2.4; it must be 0 for none, or at least 2.5 mm, the kerf of its blade',
  },
  {
    path: 'shop.sheets.0.width',
    value: 3000,
    says: 'it must be at most 2438.4 mm, its length, which is the greater side',
  },
  {
    path: 'shop.sections.0.saw',
    value: 'saw-9',
    says: 'it must be sections whose saw is one of the shop\'s: "saw-1"',
  },
  {
    path: 'shop.sections.0.section.wall',
    value: 12.7,
    says: 'shop.sections[0].section.wall is 12.7; it must be over 0 and less than 12.7 mm, half of the lesser side',
  },
  {
    path: 'shop.sections.0.section.wall',
    value: 0,
    says: 'wall is 0; it must be over 0 and less than 12.7 mm',
  },
  { path: 'shop.sections.0.section.height', value: 30, says: 'height is 30; it must be 25.4, as its width' },
  {
    path: 'shop.sections.0.section.cornerRadius',
    value: 13,
    says: 'cornerRadius is 13; it must be at most 12.7 mm',
  },
  {
    path: 'facts.0.id',
    value: 'tablet:7',
    says: 'facts[0].id is "tablet:7"; it must be "tablet:0", its device',
  },
]
