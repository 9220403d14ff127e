import type { Page } from '@playwright/test'
import { expect } from './serve.ts'

const round = (width: number) => ({ kind: 'round-tube', width, wall: 3.2 })

/** Two posts of 88.9, 700 apart; between them a rail of 48.3 and one of 76.1, which is more than a page round. */
const gate = {
  format: 'tube-job',
  version: 1,
  job: {
    id: 'gate',
    name: 'Gate',
    quantity: 1,
    units: 'mm',
    build: {
      kind: 'from-points',
      params: {
        section: round(88.9),
        points: [
          { name: 'a', x: 0, y: 0, z: 0 },
          { name: 'b', x: 700, y: 0, z: 0 },
          { name: 'c', x: 0, y: 0, z: 900 },
          { name: 'd', x: 700, y: 0, z: 900 },
          { name: 'e', x: 0, y: 0, z: 300 },
          { name: 'f', x: 700, y: 0, z: 400 },
          { name: 'g', x: 0, y: 0, z: 700 },
          { name: 'h', x: 700, y: 0, z: 700 },
        ],
        members: [
          { name: 'Left post', from: 'a', to: 'c' },
          { name: 'Right post', from: 'b', to: 'd' },
          { name: 'Brace', from: 'e', to: 'f', section: round(48.3) },
          { name: 'Rail', from: 'g', to: 'h', section: round(76.1) },
        ],
        joints: [],
      },
    },
  },
}

/** Opens it from a file, from the list of jobs. */
export async function openGate(page: Page): Promise<void> {
  await page.locator('input[type=file]').setInputFiles({
    name: 'gate.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(gate)),
  })
  await expect(page.getByRole('heading', { name: 'Parts' })).toBeVisible()
}
