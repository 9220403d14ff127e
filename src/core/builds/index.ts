import type { Build } from './build.ts'
import { cutList } from './cut-list.ts'
import { pedestal } from './pedestal.ts'
import { polygonFrame } from './polygon-frame.ts'

/** Every build, in the order in which they are offered. A new kind of build is one new file and one line here. */
export const builds: readonly Build[] = [polygonFrame, pedestal, cutList]

export const buildOf = (kind: string): Build | undefined => builds.find((build) => build.kind === kind)
