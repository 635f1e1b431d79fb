import { Component, type ComponentChildren } from 'preact'
import { first } from '../words.ts'

/** All sessions as a file, by the parts that write exports and by no screen: a screen has just failed. */
const rescue = async (): Promise<void> => {
  const [{ openLog }, { exportMany }] = await Promise.all([import('../log/store.ts'), import('../log/export.ts')])
  const log = await openLog()
  const ids = (await log.sessions()).map(s => s.id)
  for await (const { name, mime, text } of exportMany(log, ids, 'log', 'ndjson')) {
    const link = document.createElement('a')
    link.href = URL.createObjectURL(new Blob([text], { type: mime }))
    link.download = name
    link.click()
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
  }
}

interface State {
  readonly failed?: string
  readonly said?: string
}
const textOf = (problem: unknown): string => (problem instanceof Error ? `${problem.name}: ${problem.message}` : String(problem))

/**
 * If a screen fails, in drawing, in what a tap sets off or in what was begun and not waited for, say so in plain words and offer a way on. The log holds every answer that
 * was acknowledged, so that a reload leads back to the step, and the log can be taken out beforehand.
 */
export class Safe extends Component<{ children: ComponentChildren }, State> {
  private readonly onError = ({ error }: ErrorEvent): void => {
    // What comes from outside the page, or is no error of its own, has no `error`.
    if (error instanceof Error) this.setState({ failed: textOf(error) })
  }
  // What was begun and nobody waited for. Whatever may fail without harm says so where it is begun.
  private readonly onRejection = ({ reason }: PromiseRejectionEvent): void => {
    if (reason instanceof Error) this.setState({ failed: textOf(reason) })
  }
  override componentDidMount(): void {
    addEventListener('error', this.onError)
    addEventListener('unhandledrejection', this.onRejection)
  }
  override componentWillUnmount(): void {
    removeEventListener('error', this.onError)
    removeEventListener('unhandledrejection', this.onRejection)
  }
  override componentDidCatch(problem: unknown): void {
    this.setState({ failed: textOf(problem) })
  }
  override render() {
    const { failed: what, said } = this.state
    if (what === undefined) return this.props.children
    const { failed } = first()
    const tell = (text: string) => this.setState({ said: text })
    return (
      <main class="place">
        <h1>{failed.title}</h1>
        <p role="alert">{failed.lead}</p>
        <p class="source">{what}</p>
        <p role="status">{said}</p>
        <div class="actions">
          <button type="button" class="primary" onClick={() => location.reload()}>
            {failed.reload}
          </button>
          <button
            type="button"
            class="answer"
            onClick={() =>
              rescue().then(
                () => tell(failed.saved),
                () => tell(failed.notSaved),
              )
            }
          >
            {failed.save}
          </button>
        </div>
      </main>
    )
  }
}
