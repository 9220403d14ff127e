import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readJobFile, writeJobFile } from '../../src/door/job-file.ts'
import { mostCharacters } from '../../src/door/json.ts'
import { readShopFile } from '../../src/door/shop-file.ts'
import { readStoredFact, readStoredJob, readStoredNest, readStoredShop } from '../../src/door/stored.ts'
import { refusedByDoorAlone, refusedByShape, taken } from './cases.ts'
import { damaged, pathsOf, sampleFacts, sampleFile, sampleJob, sampleNest, sampleShop } from './sample.ts'

/** What the door says of a text that it must refuse: every problem, one below the other. */
function refusal(text: string): string {
  const read = readJobFile(text)
  if (read.ok) throw new Error('taken, though it should be refused')
  return read.problems.map((problem) => problem.text).join('\n')
}

describe('a sound file', () => {
  test('comes through with every field as it was', () => {
    expect(readJobFile(JSON.stringify(sampleFile()))).toEqual({
      ok: true,
      value: { job: sampleJob, shop: sampleShop, nests: [sampleNest], facts: sampleFacts },
    })
  })

  test('may hold nothing but the job', () => {
    const read = readJobFile(JSON.stringify({ format: 'tube-job', version: 1, job: sampleJob }))
    expect(read).toEqual({ ok: true, value: { job: sampleJob } })
  })

  test('may begin with a byte-order mark', () => {
    expect(readJobFile(`\uFEFF${JSON.stringify(sampleFile())}`).ok).toBe(true)
  })

  test('keeps a length as it was typed', () => {
    const read = readJobFile(JSON.stringify(damaged('job.build.params.size', '1\' 6 1/16"')))
    expect(read.ok && read.value.job.build.params.size).toBe('1\' 6 1/16"')
  })

  test('keeps facts of unknown kinds and newer versions to the last field, and fields added to known ones', () => {
    const facts = [
      ...sampleFacts,
      { ...sampleFacts[2]!, id: 'tablet:99', seq: 99, by: 'hand', body: { nest: 'n', why: { x: [null] } } },
    ]
    const read = readJobFile(JSON.stringify({ ...sampleFile(), facts }))
    expect(read.ok && read.value.facts).toEqual(facts)
  })

  test.each(taken)('is one where $path is $value', ({ path, value }) => {
    expect(readJobFile(JSON.stringify(damaged(path, value)))).toMatchObject({ ok: true })
  })
})

describe('a file that is none', () => {
  test.each([
    ['', 'it is empty'],
    ['  \n', 'it is empty'],
    ['hello', 'not JSON'],
    ['{"format": "tube-job", "version": 1, "job": {', 'not JSON'],
    ['42', 'it holds 42, not an object with "format": "tube-job"'],
    ['null', 'it holds null'],
    ['[]', 'it holds an empty list'],
    ['{"version": 1}', '"format" is missing; it must be "tube-job"'],
    ['{"format": "tube-plan", "version": 1}', '"format" is "tube-plan"; it must be "tube-job"'],
  ])('%j: %s', (text, words) => {
    expect(refusal(text)).toContain(words)
  })

  test('of version 2 is refused with both versions, and said to be untouched', () => {
    expect(refusal(JSON.stringify(damaged('version', 2)))).toBe(
      'This file is of version 2; this program reads version 1. Open it with a newer one; the file is as it was.',
    )
  })

  test.each([0, -1, 1.5, '1', null])('of version %j is refused, naming version 1', (version) => {
    expect(refusal(JSON.stringify(damaged('version', version)))).toMatch(/version.*1/s)
  })

  test('with NaN says the line, though a NaN in quotes is text', () => {
    const text = JSON.stringify(damaged('job.note', 'NaN in a note'), null, 1)
    expect(readJobFile(text).ok).toBe(true)
    const size = text.replace('"size": "18"', '"size": NaN')
    expect(size).not.toBe(text)
    const line = size.split('\n').findIndex((row) => row.includes(': NaN')) + 1
    expect(refusal(size)).toContain(`NaN in line ${line} is no number that can be measured`)
    expect(refusal(text.replace('"size": "18"', '"size": -Infinity'))).toContain('-Infinity in line')
  })

  test('with a number past all numbers (1e999) says where', () => {
    const text = JSON.stringify(sampleFile()).replace('"size":"18"', '"size":1e999')
    expect(refusal(text)).toBe(
      'job.build.params.size is Infinity, which is no number that can be measured; it must be a plain number.',
    )
  })

  test('of 64,000,000 characters is read, of one more is refused before it is parsed', () => {
    const text = JSON.stringify(sampleFile())
    const full = text + ' '.repeat(mostCharacters - text.length)
    expect(readJobFile(full).ok).toBe(true)
    expect(refusal(`${full} `)).toBe('This file has 64000001 characters; a job file has at most 64000000.')
  })

  test.each(['__proto__', 'constructor', 'prototype'])('with a field named %s anywhere is refused', (key) => {
    const text = JSON.stringify(sampleFile())
    for (const at of ['"params":{', '"coats":[1,{', '"limits":{', '{']) {
      const bad = text.replace(at, `${at}"${key}":{"polluted":1},`)
      expect(bad).not.toBe(text)
      expect(refusal(bad)).toContain(`a field named "${key}"`)
    }
    expect(({} as Record<string, unknown>).polluted).toBeUndefined()
  })

  test('that goes 5,000 levels down is refused, not followed', () => {
    const deep = `${'['.repeat(5000)}${']'.repeat(5000)}`
    const text = JSON.stringify(sampleFile()).replace('"coats":[1,', `"coats":[${deep},`)
    expect(refusal(text)).toContain('goes more than 40 levels down')
  })
})

describe('a file with one thing wrong', () => {
  test.each([...refusedByShape, ...refusedByDoorAlone])(
    '$path as $value is refused: $says',
    ({ path, value, says }) => {
      expect(refusal(JSON.stringify(damaged(path, value)))).toContain(says)
    },
  )

  test('names the field so that a program can find it', () => {
    const read = readJobFile(JSON.stringify(damaged('shop.saws.0.blades.1.kerf', -2)))
    expect(read).toEqual({
      ok: false,
      problems: [
        {
          code: 'not-possible',
          text: 'shop.saws[0].blades[1].kerf is -2; it must be a length over 0 mm.',
          field: 'shop.saws[0].blades[1].kerf',
        },
      ],
    })
  })

  test('and another says both; with 40 says 12 and counts the other 28', () => {
    const both = damaged('job.quantity', 2.5)
    ;(both.shop as Record<string, unknown>).currency = null
    expect(refusal(JSON.stringify(both)).split('\n')).toHaveLength(2)
    const many = damaged('shop.usualLengths', Array(40).fill(-1))
    expect(refusal(JSON.stringify(many)).split('\n')).toHaveLength(13)
    expect(refusal(JSON.stringify(many))).toContain('There are 28 more problems of this kind.')
  })
})

describe('what comes back from the disk', () => {
  test('is read by the same shapes', () => {
    expect(readStoredJob(sampleJob)).toEqual({ ok: true, value: sampleJob })
    expect(readStoredShop(sampleShop)).toEqual({ ok: true, value: sampleShop })
    expect(readStoredNest(sampleNest)).toEqual({ ok: true, value: sampleNest })
    for (const fact of sampleFacts) expect(readStoredFact(fact)).toEqual({ ok: true, value: fact })
  })

  test.each([undefined, null, 7, 'job', [], new Date(0), new Map()])('%j is no document', (value) => {
    for (const read of [readStoredJob, readStoredShop, readStoredNest, readStoredFact])
      expect(read(value).ok).toBe(false)
  })

  test('with NaN, which a disk can hold, says the field as the Sizes station knows it', () => {
    const job = { ...sampleJob, build: { ...sampleJob.build, params: { size: Number.NaN } } }
    expect(readStoredJob(job)).toEqual({
      ok: false,
      problems: [expect.objectContaining({ code: 'not-a-number', field: 'build.params.size' })],
    })
  })

  test('with a circle in it is refused', () => {
    const body: Record<string, unknown> = {}
    body.again = body
    expect(readStoredFact({ ...sampleFacts[13]!, body }).ok).toBe(false)
  })
})

describe('a shop file', () => {
  test('is the shop alone, or a job file that carries one', () => {
    expect(readShopFile(JSON.stringify(sampleShop))).toEqual({ ok: true, value: sampleShop })
    expect(readShopFile(JSON.stringify(sampleFile()))).toEqual({ ok: true, value: sampleShop })
  })

  test.each([
    ['', 'This is no shop file: it is empty.'],
    ['{"id": "x"}', 'name is missing; it must be text of 1 to 200 characters.'],
    ['7', 'the shop is 7; it must be a shop: an object with id, name'],
    [JSON.stringify(damaged('shop', undefined)), 'carries no shop'],
    [JSON.stringify(damaged('job.quantity', -1)), 'job.quantity is -1'],
  ])('%j is none: %s', (text, words) => {
    const read = readShopFile(text)
    expect(read.ok ? '' : read.problems[0]!.text).toContain(words)
  })
})

describe('properties', () => {
  test('what is written is read back the same, and its text does not change again', () => {
    const read = readJobFile(JSON.stringify(sampleFile()))
    if (!read.ok) throw new Error('sample refused')
    const text = writeJobFile(read.value)
    const again = readJobFile(text)
    expect(again).toEqual(read)
    expect(again.ok && writeJobFile(again.value)).toBe(text)
  })

  test('any text gets an answer: taken or refused in words', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json(), fc.string({ unit: 'binary' })), (text) => {
        const read = readJobFile(text)
        expect(read.ok || read.problems.every((problem) => problem.text.length > 10)).toBe(true)
      }),
    )
  })

  test('any value in place of any one field gets an answer, and what is taken reads back the same', () => {
    const paths = pathsOf(sampleFile())
    expect(paths.length).toBeGreaterThan(250)
    fc.assert(
      fc.property(fc.constantFrom(...paths), fc.jsonValue(), (path, value) => {
        const read = readJobFile(JSON.stringify(damaged(path, value)))
        if (!read.ok) expect(read.problems[0]!.text).toMatch(/[a-z]/)
        else expect(readJobFile(writeJobFile(read.value))).toEqual(read)
      }),
      { numRuns: 300 },
    )
  })

  test('no field of job, shop or nest can be missing without a word, save the optional ones', () => {
    const optional =
      /\.(units|way|note|grade|measured|wanted|saw|rate|inHalves|halfOf|sheets|price|count|parent|first|rack|blank|job|copy|nest|gang|otherWaySaves|tolerance|general|linear|table|slot|habitsOff|markWith|passes|settings|travel|from|oneStick|shrinkage|miter|butt|flat|saddle)$/
    for (const path of pathsOf(sampleFile())) {
      const inOpenRecord = /^job\.build\.params\.|^facts\.1[34]\.body\.|\.\d+$/.test(path)
      const wholeParts = ['shop', 'nests', 'facts'].includes(path)
      const read = readJobFile(JSON.stringify(damaged(path, undefined)))
      if (!read.ok) expect(read.problems[0]!.text).toMatch(/missing|must be/)
      else expect(inOpenRecord || wholeParts || optional.test(path), path).toBe(true)
    }
  })
})
