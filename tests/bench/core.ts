// What benches ask of the core, as one file to build.
export { buildOf } from '../../src/core/builds/index.ts'
export { newJob } from '../../src/core/builds/start.ts'
export { plan } from '../../src/core/plan.ts'
export { startShop } from '../../src/core/shop-start.ts'
