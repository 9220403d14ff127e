import { readFileSync } from 'node:fs'
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { plan } from '../../src/core/plan.ts'
import type { Plan } from '../../src/core/plan-shapes.ts'
import { startShop } from '../../src/core/shop-start.ts'
import { readJobFile } from '../../src/door/job-file.ts'
import { pageSizes } from '../../src/paper/size.ts'
import { stockSheet } from '../../src/paper/stock-sheet.tsx'

const sample = (name: string): Plan => {
  const read = readJobFile(readFileSync(new URL(`../../demo-data/${name}.json`, import.meta.url), 'utf8'))
  const made = read.ok ? plan(read.value.job, startShop('mm')) : undefined
  if (!made?.ok) throw new Error(name)
  return made.value
}

test('the printed buy list has the feet of the job that is bought along: 12 for three pedestals', () => {
  const printed = (beside: readonly Plan[]) =>
    renderToStaticMarkup(
      createElement('div', null, stockSheet(sample('hexagon-top'), startShop('mm'), pageSizes.A4, beside)),
    )
  expect(printed([])).not.toContain('leveling foot')
  expect(printed([sample('ten-sided-pedestal')])).toContain('12 × M10 leveling foot')
})
