// What benches ask of the core and of the drawing, as one file to build.
export { buildOf } from '../../src/core/builds/index.ts'
export { newJob } from '../../src/core/builds/start.ts'
export { plan } from '../../src/core/plan.ts'
export { startShop } from '../../src/core/shop-start.ts'
export { landedIn, landedLines } from '../../src/ui/drawing/landed.ts'
export { backToFront } from '../../src/ui/drawing/shapes.ts'
export { solidsOf } from '../../src/ui/drawing/solid.ts'
export { fromAbove, fromFront } from '../../src/ui/drawing/view.ts'
