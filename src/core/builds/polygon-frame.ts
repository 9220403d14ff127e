import { assemble } from './assembly.ts'
import type { Build } from './build.ts'
import { ringParams, topOf, topParams } from './top.ts'

/** A regular frame of mitered tube, with or without a plate or sheet on it, lying on the floor. */
export const polygonFrame: Build = {
  kind: 'polygon-frame',
  title: 'Polygon frame',
  about: 'A top frame of 3 to 16 equal sides with mitered corners, with or without a top.',
  picture: 'M16 6h16l10 18-10 18H16L6 24zM18 11l-8 13 8 13h12l8-13-8-13z',
  params: [...ringParams, ...topParams],
  frame(values, context) {
    const made = topOf(values, context, 0)
    if (!made.ok) return made
    const { ring, plates, measures, warnings, tooShort } = made.value
    return assemble({
      members: ring.members,
      plates,
      joints: ring.joints,
      hardware: [],
      assemblies: [ring.assembly],
      measures,
      warnings,
      tooShort,
    })
  },
}
