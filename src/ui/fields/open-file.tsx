import { useRef, useState } from 'react'

/** A button that asks for files and gives their texts, one call for each in turn. */
export function OpenFile(props: {
  readonly label: string
  readonly onText: (text: string, name: string) => Promise<void>
  readonly className?: string
}) {
  const input = useRef<HTMLInputElement>(null)
  const [unread, setUnread] = useState<string | null>(null)
  const take = async (files: FileList | null) => {
    setUnread(null)
    for (const file of files ?? []) {
      let text: string
      try {
        text = await file.text()
      } catch {
        // Moved, taken out with its card, or kept from the browser since it was chosen.
        setUnread(file.name)
        continue
      }
      await props.onText(text, file.name)
    }
    // The same file can be opened again.
    if (input.current) input.current.value = ''
  }
  return (
    <>
      <button type="button" className={props.className} onClick={() => input.current?.click()}>
        {props.label}
      </button>
      {unread !== null && (
        <span className="warning" role="alert">
          {unread} cannot be read: this device does not give it to the browser. Choose it again.
        </span>
      )}
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
