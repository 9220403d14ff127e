import Ajv2020 from 'ajv/dist/2020.js'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import schema from '../../docs/schemas/tube-job.schema.json'
import { readJobFile, writeJobFile } from '../../src/door/job-file.ts'
import { damaged, pathsOf, put, sampleFile } from '../door/sample.ts'
import { seed } from './seed.ts'

// The door and its published schema over many damaged files: what the door takes the schema takes too, and it is
// written and read back the same; what the door refuses it refuses in words.

const many = 4000
const holds = new Ajv2020({ strict: true, strictRequired: false }).compile(schema)
// Mostly values that some field can be, so that a good part is taken.
const value = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom<unknown>(1, 2, 3, 10, 250.5, 'A', '9 5/8', 'tablet:1', 'S1') },
  { weight: 2, arbitrary: fc.constantFrom<unknown>(null, 0, -1, 0.5, 1e9, 1e300, 'mill', '', {}, [], true) },
  { weight: 1, arbitrary: fc.jsonValue() },
)

test(`${many} files with two fields replaced are taken and written back, or refused in words (seed ${seed})`, () => {
  const paths = pathsOf(sampleFile())
  const field = fc.constantFrom(...paths)
  let taken = 0
  fc.assert(
    fc.property(field, value, field, value, (one, first, two, second) => {
      const once = damaged(one, first)
      // A place inside what was just replaced is gone.
      const file = two.startsWith(`${one}.`) ? once : put(once, two, second)
      const read = readJobFile(JSON.stringify(file))
      if (!read.ok) {
        expect(read.problems.every(({ text }) => /[a-z]{2}.*\.$/.test(text))).toBe(true)
        return
      }
      taken += 1
      expect(holds(file), `${one}, ${two}: ${JSON.stringify(holds.errors)}`).toBe(true)
      expect(readJobFile(writeJobFile(read.value))).toEqual(read)
    }),
    { numRuns: many, seed },
  )
  console.log(`door, seed ${seed}: ${taken} of ${many} taken`)
  expect(taken).toBeGreaterThan(many / 40)
})
