import type { Frame, Member } from '../frame/frame.ts'
import { isHollow } from '../section/section.ts'

/** An end that the weld shuts: against steel, under a cap. */
const shut = (mate: string): boolean => mate !== 'open' && mate !== 'floor'

/** Tubes that are shut at both ends once they are welded: each needs a vent hole before an oven or a galvanizing bath. */
export const closedTubes = (frame: Frame): readonly Member[] =>
  frame.members.filter(({ section, mates }) => isHollow(section) && mates.every(shut))
