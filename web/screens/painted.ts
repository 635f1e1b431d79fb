/** Longer than any frame takes, ms: a page that is not in sight draws none. */
const NO_FRAME = 100

/** Resolves once what is on the screen now has been drawn: what reckons longer than a frame comes after it, so that a tap is seen at once. */
export const painted = (): Promise<void> =>
  new Promise(done => {
    const timer = setTimeout(done, NO_FRAME)
    requestAnimationFrame(() =>
      setTimeout(() => {
        clearTimeout(timer)
        done()
      }, 0),
    )
  })
