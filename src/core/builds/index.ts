import type { Build } from './build.ts'
import { cutList } from './cut-list.ts'
import { fourLeg } from './four-leg.ts'
import { fromPoints } from './from-points.ts'
import { looseTop } from './loose-top.ts'
import { pedestal } from './pedestal.ts'
import { polygonFrame } from './polygon-frame.ts'
import { rack } from './rack.ts'
import { rectFrame } from './rect-frame.ts'
import { trestle } from './trestle.ts'
import { unevenFrame } from './uneven-frame.ts'

/** Every build, in the order in which they are offered. A new kind of build is one new file and one line here. */
export const builds: readonly Build[] = [
  polygonFrame,
  unevenFrame,
  rectFrame,
  pedestal,
  fourLeg,
  rack,
  trestle,
  looseTop,
  cutList,
  fromPoints,
]

export const buildOf = (kind: string): Build | undefined => builds.find((build) => build.kind === kind)
