import type { Fact } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import type { Result } from '../core/result.ts'
import type { Shop } from '../core/shop.ts'
import { fact } from './fact-shape.ts'
import { job } from './job-shape.ts'
import { nest } from './nest-shape.ts'
import { readShape } from './problem.ts'
import { shop } from './shop-shape.ts'

// What comes back from the disk of this device goes through the same shapes as a file. Paths of problems are those
// within the document: `build.params.size`.

export const readStoredJob = (value: unknown): Result<Job> => readShape(job, value, 'the job')
export const readStoredShop = (value: unknown): Result<Shop> => readShape(shop, value, 'the shop')
export const readStoredNest = (value: unknown): Result<Nest> => readShape(nest, value, 'the nest')
export const readStoredFact = (value: unknown): Result<Fact> => readShape(fact, value, 'the fact')
