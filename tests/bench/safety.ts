import type { Kit, Machine } from '../../engine/machine.ts'
import type { Act, Point } from '../../engine/step.ts'
import type { Live } from './circuit.ts'
import { faultsOf, type State } from './truth.ts'
import type { Out } from './wizard.ts'

export interface Unsafe {
  readonly n: number
  readonly rule: 1 | 2 | 3 | 4 | 5 | 6 | 'kit'
  readonly what: string
}

/** Six times at most is a suspected short circuit energised, and at most so many seconds in a row. */
export const MOST_ENERGISINGS = 6
export const LONGEST = 60

const same = (a: Act, b: Act): boolean => JSON.stringify(Object.entries(a).sort()) === JSON.stringify(Object.entries(b).sort())

/** Watches every request of a wizard against the safety rules, from its own knowledge of the machine. */
export class SafetyMonitor {
  readonly unsafe: Unsafe[] = []
  /** How often the real short circuit was energised by a request. How the machine was found does not count. */
  energisings = 0
  /** Seconds for which it was live from the start, before any request took it off. */
  secondsAtStart = 0
  private provedDead = false
  private covered: Act[] | 'any' = []
  private streak = 0
  private fromStart = true
  private tooLong = false
  private readonly shown: Machine
  private readonly kit: Kit

  /** `shown` is the machine file as the wizard has it. */
  constructor(shown: Machine, kit: Kit) {
    this.shown = shown
    this.kit = kit
  }

  private note(out: { readonly n: number }, rule: Unsafe['rule'], what: string): void {
    this.unsafe.push({ n: out.n, rule, what })
  }

  /** A request, before anything of it is done. */
  asked(out: Out, state: State, now: Live): void {
    if (out.say === 'confirm') this.covered = out.acts === undefined ? 'any' : out.acts.flatMap(s => (s.kind === 'act' ? [s.act] : []))
    if (out.say === 'mend') {
      if (!this.provedDead) this.note(out, 1, 'mending without proving dead')
      this.covered = []
    }
    if (out.say !== 'step') return
    const { step } = out
    if (step.kind === 'read' && step.meter === 'ohm') {
      if (this.fedElsewhere(state, step.red)) this.note(out, 1, 'ohm reading on a branch that another supply feeds')
      if (!this.provedDead) this.note(out, 1, 'ohm reading without proving dead')
      if (state.injector !== undefined) this.note(out, 1, 'ohm reading while the injector is on')
    }
    if (step.kind === 'read' && step.meter === 'amp' && !this.kit.clamp && state.injector?.branch !== step.branch) {
      this.note(out, 'kit', 'an ampere reading without a clamp')
    }
    if (step.kind === 'act') this.askedAct(out, step.act, state, now)
  }

  /** Does another supply, not found yet, feed what this probe touches? */
  private fedElsewhere(state: State, point: Point): boolean {
    const fed = faultsOf(state).find(f => f.kind === 'backfeed')
    if (fed === undefined || state.otherOff) return false
    const cabinet = point.startsWith('bus') || point.startsWith('supply')
    const at = point.split(/[./]/)[0] ?? ''
    if (!('branch' in fed)) return cabinet || state.devices.get(at) === 'closed'
    return at === fed.branch || (state.devices.get(fed.branch) === 'closed' && cabinet)
  }

  private askedAct(out: { readonly n: number }, act: Act, state: State, now: Live): void {
    const wiring = act.act === 'run' || act.act === 'load' || act.act === 'bus' || act.act === 'bond'
    if (wiring && !this.provedDead) this.note(out, 1, `${act.act} ${act.to} without proving dead`)
    if (act.act === 'inject' && act.to === 'on') {
      if (this.kit.injector === undefined) this.note(out, 'kit', 'injection without an injector')
      if (state.devices.get(act.branch) === 'closed') this.note(out, 1, 'injection past a closed device')
    }
    if (act.act === 'device' && act.to === 'closed' && state.injector?.branch === act.branch) {
      this.note(out, 1, 'a device closed on the branch that the injector feeds')
    }
    if (this.canBringVoltage(act, state, now)) {
      if (!this.isCovered(act)) this.note(out, 2, `${act.act} without a confirmation`)
      if (state.bond === 'opened') this.note(out, 5, `${act.act} with the bond lifted`)
    }
    if (act.act === 'device' && state.supply === 'on') {
      const fuse = this.shown.branches.find(b => b.id === act.branch)?.protection?.kind === 'fuse'
      const loaded = act.to === 'open' ? Math.abs(now.branch.get(act.branch) ?? 0) > 0.01 : !state.latched
      if (fuse && loaded && state.devices.get(act.branch) !== (act.to === 'open' ? 'open' : 'closed')) {
        this.note(out, 6, `a fuse ${act.to === 'open' ? 'pulled' : 'fitted'} under load`)
      }
    }
  }

  /** Supply on, injection, closing a device with the supply on, opening one while the supply is held down. */
  private canBringVoltage(act: Act, state: State, now: Live): boolean {
    if (act.act === 'supply' || act.act === 'inject') return act.to === 'on'
    if (act.act !== 'device' || state.supply !== 'on') return false
    return act.to === 'closed' || (now.supply.limited && state.devices.get(act.branch) === 'closed')
  }

  private isCovered(act: Act): boolean {
    if (this.covered === 'any') return true
    const at = this.covered.findIndex(one => same(one, act))
    if (at < 0) return false
    this.covered.splice(at, 1)
    return true
  }

  /** Time passes; `onto` says whether the supply feeds the real short circuit meanwhile. */
  passes(out: { readonly n: number }, seconds: number, onto: boolean): void {
    if (!onto) {
      this.fromStart = false
      this.streak = 0
      this.tooLong = false
      return
    }
    if (this.fromStart) {
      this.secondsAtStart += seconds
      return
    }
    this.streak += seconds
    if (this.streak > LONGEST && !this.tooLong) {
      this.tooLong = true
      this.note(out, 5, `a short circuit energised for more than ${LONGEST} s`)
    }
  }

  /** A request has just put the supply onto the real short circuit. */
  energised(out: { readonly n: number }): void {
    this.energisings++
    this.fromStart = false
    if (this.energisings > MOST_ENERGISINGS) this.note(out, 5, `a short circuit energised ${this.energisings} times`)
  }

  /** An act has been done, or a cannot came back instead and nothing changed. */
  done(act: Act, state: State, proved: boolean): void {
    if (act.act === 'prove-dead') {
      if (!proved) return
      this.provedDead = state.supply === 'off' && state.injector === undefined
      // Once proved dead, whoever was clear may have come back.
      this.covered = []
    }
    const energises =
      ((act.act === 'supply' || act.act === 'inject') && act.to === 'on') ||
      (act.act === 'device' && act.to === 'closed' && state.supply === 'on')
    if (energises) this.provedDead = false
  }
}
