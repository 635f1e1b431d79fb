import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type * as DesignerFile from './designer.tsx'

const LINK = 'Why the device stays closed'

/** Opens the designer's page in place of the screen; its file is fetched only then. */
export const useDesigner = (): { file: typeof DesignerFile | undefined; back: () => void; link: () => JSX.Element } => {
  const [file, setFile] = useState<typeof DesignerFile | undefined>()
  const [problem, setProblem] = useState('')
  const open = () =>
    import('./designer.tsx').then(
      loaded => setFile(() => loaded),
      () => setProblem('This part is not stored yet. Open it once with a network.'),
    )
  const link = () => (
    <>
      {problem && (
        <p role="alert" class="problem">
          {problem}
        </p>
      )}
      <button type="button" class="plain" onClick={open}>
        {LINK}
      </button>
    </>
  )
  return { file, back: () => setFile(undefined), link }
}
