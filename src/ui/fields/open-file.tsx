import { useRef, useState } from 'react'
import { textOf } from './files.ts'

/** A button that asks for files and gives their texts, one call for each in turn. */
export function OpenFile(props: {
  readonly label: string
  readonly onText: (text: string, name: string) => Promise<void>
  readonly className?: string
  /** Endings and kinds that the browser offers; absent: our own files, and as a message may have renamed them. */
  readonly accept?: string
}) {
  const input = useRef<HTMLInputElement>(null)
  const [unread, setUnread] = useState<readonly string[]>([])
  const take = async (files: FileList | null) => {
    setUnread([])
    for (const file of files ?? []) {
      const text = await textOf(file)
      if (text.ok) await props.onText(text.value, file.name)
      else setUnread((before) => [...before, ...text.problems.map((problem) => problem.text)])
    }
    // The same file can be opened again.
    if (input.current) input.current.value = ''
  }
  return (
    <>
      <button type="button" className={props.className} onClick={() => input.current?.click()}>
        {props.label}
      </button>
      {unread.map((said) => (
        <span key={said} className="warning" role="alert">
          {said}
        </span>
      ))}
      <input
        ref={input}
        type="file"
        hidden
        multiple
        accept={props.accept ?? '.json,.txt,application/json,text/plain'}
        aria-label={props.label}
        onChange={(event) => void take(event.target.files)}
      />
    </>
  )
}
