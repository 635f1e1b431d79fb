import { words } from '../words.ts'

export interface Shared {
  readonly name: string
  readonly mime: string
  readonly text: string
  /** The text in pieces, where it is long. */
  readonly parts?: readonly string[]
}
/** What was done with a file, and the sentence that says so. Only of the share sheet does a browser tell that it was taken. */
export interface HandedOut {
  readonly how: 'sheet' | 'downloads' | 'not'
  readonly said: string
}

/** Gives a file away: by the share sheet where the phone takes it, else as a download. Never claims more than was done. */
export const handOut = async (given: Shared): Promise<HandedOut> => {
  const { share: say } = words().session
  const { name, mime } = given
  const file = new File([...(given.parts ?? [given.text])], name, { type: mime })
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file] })
      return { how: 'sheet', said: say.sheet(name) }
    } catch (problem) {
      if (problem instanceof DOMException && problem.name === 'AbortError') return { how: 'not', said: say.not }
    }
  }
  const link = document.createElement('a')
  link.href = URL.createObjectURL(file)
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
  return { how: 'downloads', said: say.downloads(name) }
}
export const share = async (file: Shared): Promise<string> => (await handOut(file)).said
