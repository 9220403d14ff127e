import { bad, type Result } from '../core/result.ts'
import type { Shop } from '../core/shop.ts'
import { readJobFile } from './job-file.ts'
import { parseJson } from './json.ts'
import { readShape } from './problem.ts'
import { shop } from './shop-shape.ts'

/** A shop by itself: the shop of a job file, or a file that holds nothing but the shop object. */
export function readShopFile(text: string): Result<Shop> {
  const parsed = parseJson(text, 'shop file')
  if (!parsed.ok) return parsed
  const { value } = parsed
  const isJobFile = typeof value === 'object' && value !== null && 'format' in value
  if (!isJobFile) return readShape(shop, value, 'the shop')
  const file = readJobFile(text)
  if (!file.ok) return file
  return file.value.shop
    ? { ok: true, value: file.value.shop }
    : bad('no-shop', 'This job file carries no shop; give one that does, or a file with the shop alone.')
}
