import { useState } from 'react'
import { type StickNow, stickNow } from '../../app/stick-now.ts'
import type { NestStick } from '../../core/nest.ts'
import { say } from '../../core/reading/show.ts'
import type { Shop } from '../../core/shop.ts'
import { useActions, useApp } from '../app.ts'
import { Choice } from '../fields/choice.tsx'
import { MmField } from '../fields/length-field.tsx'
import { saysOf } from '../words.ts'

/** At the start of a stick: how long it really is, and what its first end is like. */
export function RealStick({
  job,
  nest,
  stick,
  shop,
}: {
  job: string
  nest: string
  stick: NestStick
  shop: Shop
}) {
  const actions = useActions()
  const progress = useApp((state) => state.progress)
  const says = saysOf(shop)
  const now: StickNow = stickNow(nest, stick, progress)
  const [length, setLength] = useState<number | undefined>(undefined)
  const [end, setEnd] = useState<'mill' | 'cut'>(now.ends[0] === 'cut' ? 'cut' : 'mill')
  return (
    <details className="real-stick">
      <summary>
        Is {says.stick} {stick.id} not {say(now.length, shop.reading)} long?
      </summary>
      <MmField
        label={`Real length of ${says.stick} ${stick.id}`}
        value={length ?? now.length}
        reading={shop.reading}
        possible={{ over: 0 }}
        onChange={setLength}
      />
      <Choice
        label="The end that goes to the stop"
        value={end}
        options={[
          { value: 'mill', label: 'to be cleaned up' },
          { value: 'cut', label: 'sawn square' },
        ]}
        onChange={setEnd}
      />
      <button
        type="button"
        onClick={() => void actions.load(job, stick.id, length ?? now.length, [end, now.ends[1]])}
      >
        Write it down
      </button>
    </details>
  )
}
