import { useRef } from 'react'

/** A button that asks for files and gives their texts, one call for each in turn. */
export function OpenFile(props: {
  readonly label: string
  readonly onText: (text: string, name: string) => Promise<void>
  readonly className?: string
}) {
  const input = useRef<HTMLInputElement>(null)
  const take = async (files: FileList | null) => {
    for (const file of files ?? []) await props.onText(await file.text(), file.name)
    // The same file can be opened again.
    if (input.current) input.current.value = ''
  }
  return (
    <>
      <button type="button" className={props.className} onClick={() => input.current?.click()}>
        {props.label}
      </button>
      <input
        ref={input}
        type="file"
        hidden
        multiple
        accept=".json,application/json"
        aria-label={props.label}
        onChange={(event) => void take(event.target.files)}
      />
    </>
  )
}
