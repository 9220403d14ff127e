// What benches ask of the core and of the drawing, as one file to build.
export { buildOf } from '../../src/core/builds/index.ts'
export { newJob } from '../../src/core/builds/start.ts'
export { draftOf } from '../../src/core/draft.ts'
export { plan } from '../../src/core/plan.ts'
export { startShop } from '../../src/core/shop-start.ts'
export { bothViews } from '../../src/ui/drawing/both-views.ts'
export { marksOf } from '../../src/ui/drawing/marks.ts'
