import type { Fact, FactKind, KnownFact } from '../facts.ts'

// Facts are never rewritten: what an older program wrote is read through here, one step per version.

type Upcast = (body: unknown) => unknown

/**
 * By kind, the steps from version 1 to 2, from 2 to 3 and so on: the newest version is one more than there are steps.
 * A step gets a body of its version and gives one of the next; it must not fail on a body that its version allowed.
 */
const upcasters: { readonly [K in FactKind]: readonly Upcast[] } = {
  cut: [],
  undo: [],
  accepted: [],
  bought: [],
  found: [],
  opened: [],
  kept: [],
  scrapped: [],
  loaded: [],
  miscut: [],
  measured: [],
  stopMoved: [],
  bladeChanged: [],
  cutApart: [],
  discarded: [],
  corrected: [],
  sheetFound: [],
  sheetCorrected: [],
  sheetDiscarded: [],
  tacked: [],
  welded: [],
  checked: [],
  gauged: [],
  noted: [],
  setTo: [],
}

/** Version that this program writes for each kind. */
export const newestVersion = (kind: FactKind): number => upcasters[kind].length + 1

const isText = (value: unknown): value is string => typeof value === 'string'
const isNumber = (value: unknown): boolean => typeof value === 'number' && Number.isFinite(value)
const isLength = (value: unknown): boolean => isNumber(value) && (value as number) > 0
const isCount = (value: unknown): boolean => Number.isSafeInteger(value) && (value as number) > 0
const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null
const isDistance = (value: unknown): boolean => isNumber(value) && (value as number) >= 0
const isPair = (value: unknown): boolean => Array.isArray(value) && value.length === 2
const isFrom = (value: unknown): boolean => isObject(value) && (isText(value.stick) || isText(value.piece))

type Fields = Readonly<Record<string, unknown>>
const isStep = (body: Fields): boolean => isText(body.step)
const stages: readonly unknown[] = ['blank', 'half', 'piece']
const isCutOff = (body: Fields): boolean =>
  stages.includes(body.stage) &&
  isText(body.key) &&
  isText(body.mark) &&
  isText(body.label) &&
  isFrom(body.from)

/** What the fold leans on in each newest body. The door has looked closer; a log may have come by another way. */
const readable: { readonly [K in FactKind]: (body: Fields) => boolean } = {
  cut: isCutOff,
  undo: (body) => isText(body.fact),
  accepted: (body) => isText(body.nest),
  bought: (body) => isObject(body.section) && isLength(body.length) && isCount(body.count),
  found: (body) => isObject(body.section) && isLength(body.length) && isPair(body.ends),
  opened: (body) => isText(body.stick),
  kept: (body) =>
    isObject(body.section) &&
    isText(body.stick) &&
    isLength(body.length) &&
    isPair(body.ends) &&
    (body.sign === undefined || isText(body.sign)),
  scrapped: (body) => isText(body.stick),
  loaded: (body) => isText(body.stick) && isLength(body.length) && isPair(body.ends),
  miscut: (body) =>
    isCutOff(body) &&
    isText(body.why) &&
    isObject(body.section) &&
    isDistance(body.took) &&
    isDistance(body.left) &&
    isPair(body.ends),
  measured: (body) =>
    isText(body.piece) &&
    isText(body.what) &&
    isLength(body.got) &&
    (body.wanted === undefined || isLength(body.wanted)),
  stopMoved: (body) => isText(body.setUp) && isNumber(body.by),
  bladeChanged: (body) => isText(body.saw) && isText(body.blade) && isDistance(body.kerf),
  cutApart: (body) => isText(body.why),
  discarded: (body) => isText(body.rack),
  corrected: (body) => isText(body.rack) && isLength(body.length),
  sheetFound: (body) => isLength(body.thickness) && isLength(body.length) && isLength(body.width),
  sheetCorrected: (body) => isText(body.sheet) && isLength(body.length) && isLength(body.width),
  sheetDiscarded: (body) => isText(body.sheet),
  tacked: isStep,
  welded: isStep,
  checked: isStep,
  gauged: (body) => isText(body.of) && Number.isFinite(body.value),
  noted: (body) => isText(body.of) && isText(body.text),
  setTo: (body) =>
    isLength(body.wall) &&
    isText(body.joint) &&
    isText(body.wire) &&
    isText(body.gas) &&
    isLength(body.volts) &&
    isLength(body.wireSpeed),
}

const isKind = (kind: string): kind is FactKind => Object.hasOwn(upcasters, kind)

/**
 * The fact at the newest version of its kind; undefined for a kind or version that this program does not know, or a
 * body that it cannot read: such a fact is kept and passed on, never acted on. `steps` is there for tests.
 */
export function known(
  fact: Fact,
  steps: Readonly<Partial<Record<string, readonly Upcast[]>>> = upcasters,
): KnownFact | undefined {
  if (!isKind(fact.kind)) return undefined
  const path = steps[fact.kind] ?? []
  if (!Number.isInteger(fact.v) || fact.v < 1 || fact.v > path.length + 1) return undefined
  const body = path.slice(fact.v - 1).reduce<unknown>((old, upcast) => upcast(old), fact.body)
  if (!isObject(body) || !readable[fact.kind](body)) return undefined
  return { ...fact, v: path.length + 1, body } as KnownFact
}
