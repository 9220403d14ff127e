import Ajv2020 from 'ajv/dist/2020.js'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import schema from '../../docs/schemas/tube-job.schema.json'
import { readJobFile, writeJobFile } from '../../src/door/job-file.ts'
import { refusedByDoorAlone, refusedByShape, taken } from './cases.ts'
import { damaged, pathsOf, sampleFile } from './sample.ts'

const holds = new Ajv2020({ allErrors: true, strict: true, strictRequired: false }).compile(schema)

describe('the published schema and the door agree', () => {
  test('on the sound file, before and after the door has written it', () => {
    expect(holds(sampleFile()), JSON.stringify(holds.errors)).toBe(true)
    const read = readJobFile(JSON.stringify(sampleFile()))
    expect(read.ok && holds(JSON.parse(writeJobFile(read.value)))).toBe(true)
  })

  test.each(taken)('takes $path as $value', ({ path, value }) => {
    expect(holds(damaged(path, value)), JSON.stringify(holds.errors)).toBe(true)
  })

  test.each(refusedByShape)('refuses $path as $value', ({ path, value }) => {
    expect(holds(damaged(path, value))).toBe(false)
  })

  test.each(refusedByDoorAlone)(
    'cannot say the rule between fields that $path as $value breaks',
    ({ path, value }) => {
      expect(holds(damaged(path, value))).toBe(true)
    },
  )

  test('on any text up to 200 characters as a name, however many bytes its characters take', () => {
    for (const name of ['é'.repeat(200), '🔩'.repeat(200)]) {
      expect(holds(damaged('job.name', name))).toBe(true)
      expect(readJobFile(JSON.stringify(damaged('job.name', name))).ok).toBe(true)
      expect(holds(damaged('job.name', `${name}x`))).toBe(false)
      expect(readJobFile(JSON.stringify(damaged('job.name', `${name}x`))).ok).toBe(false)
    }
  })

  test('whatever one field is replaced by, the schema refuses nothing that the door takes', () => {
    const paths = pathsOf(sampleFile())
    const value = fc.oneof(
      fc.jsonValue(),
      fc.constantFrom(null, 0, -1, 1, 0.5, 'mill', 'mm', '', {}, [], true, 1e9),
    )
    fc.assert(
      fc.property(fc.constantFrom(...paths), value, (path, put) => {
        const file = damaged(path, put)
        // What reaches into the machinery of objects is the door's own to keep out.
        const read = readJobFile(JSON.stringify(file))
        if (read.ok) expect(holds(file), `${path}: ${JSON.stringify(holds.errors)}`).toBe(true)
        else if (holds(file))
          expect(read.problems.map(({ code }) => code).join(), path).toMatch(/not-possible|forbidden-name/)
      }),
      { numRuns: 400 },
    )
  })
})
