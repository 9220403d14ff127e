import { Pick } from './choice.tsx'

/** Which of the ordered quantity is on the bench; nothing to choose where there is one. */
export function CopyPick(props: {
  readonly quantity: number
  readonly copy: number
  readonly onChoose: (copy: number) => void
}) {
  const { quantity, copy, onChoose } = props
  if (quantity === 1) return null
  return (
    <Pick
      label="Copy on the bench"
      value={String(copy)}
      options={Array.from({ length: quantity }, (_, at) => ({
        value: String(at + 1),
        label: `Copy ${at + 1} of ${quantity}`,
      }))}
      onChange={(value) => onChoose(Number(value))}
    />
  )
}
