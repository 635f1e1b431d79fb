interface Shared {
  readonly name: string
  readonly mime: string
  readonly text: string
}

/** Gives a file away: by the share sheet where the phone takes it, else as a download. Says what was done; never claims more. */
export const share = async ({ name, mime, text }: Shared): Promise<string> => {
  const file = new File([text], name, { type: mime })
  if (navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file] })
      return `${name} was handed to the share sheet.`
    } catch (problem) {
      if (problem instanceof DOMException && problem.name === 'AbortError') return 'Not shared.'
    }
  }
  const link = document.createElement('a')
  link.href = URL.createObjectURL(file)
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
  return `${name} was handed to the downloads.`
}
