import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { first, withWords } from '../words.ts'
import type * as DesignerFile from './designer.tsx'

/** Opens the designer's page in place of the screen; its file is fetched only then. */
export const useDesigner = (): { file: typeof DesignerFile | undefined; back: () => void; link: () => JSX.Element } => {
  const [file, setFile] = useState<typeof DesignerFile | undefined>()
  const [problem, setProblem] = useState('')
  const open = () =>
    withWords(import('./designer.tsx')).then(
      loaded => setFile(() => loaded),
      () => setProblem(first().notStored),
    )
  const link = () => (
    <>
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      <button type="button" class="plain" onClick={open}>
        {first().symptom.designer}
      </button>
    </>
  )
  return { file, back: () => setFile(undefined), link }
}
