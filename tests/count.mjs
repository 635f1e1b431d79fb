/**
 * What a test runner's JSON report says of one file. `status` is the file's own: 'failed' also when it could not be loaded.
 * @typedef {{ name: string, status: string, assertionResults: { status: string, title?: string, failureMessages?: string[] }[] }} FileResult
 * @typedef {{ testResults: FileResult[] }} Report
 * @typedef {{ passed: number, failed: number, notes: string[] }} Count
 */

/**
 * Counts what stood the test and what did not. Nothing that was not tried may look like a success: a run without a report, a file
 * that never ran, a file without a test and a skipped test count as failed, each with a note that says so. A test that passed at
 * the second try counts as passed, and is named.
 * @param {Report | undefined} report
 * @param {readonly string[]} files the test files that belong to this run
 * @param {number | null} exitCode of the runner
 * @returns {Count}
 */
export function count(report, files, exitCode) {
  if (!report) return { passed: 0, failed: 1, notes: ['the runner left no report'] }
  const notes = []
  let passed = 0
  let failed = 0
  for (const { name, status, assertionResults } of report.testResults) {
    const tried = assertionResults.filter(test => test.status === 'passed' || test.status === 'failed')
    const broken = tried.filter(test => test.status === 'failed').length
    const skipped = assertionResults.length - tried.length
    passed += tried.length - broken
    failed += broken + skipped
    if (skipped > 0) notes.push(`${name}: ${skipped} skipped`)
    for (const test of tried)
      if (test.status === 'passed' && (test.failureMessages?.length ?? 0) > 0)
        notes.push(`${name}: passed at the second try only: ${test.title}: ${test.failureMessages?.[0]?.split('\n')[0]}`)
    if (status === 'failed' ? broken === 0 : assertionResults.length === 0) {
      failed += 1
      notes.push(`${name}: could not be run, or holds no test`)
    }
  }
  for (const file of files.filter(path => !report.testResults.some(result => result.name === path))) {
    failed += 1
    notes.push(`${file}: did not run`)
  }
  if (exitCode !== 0 && failed === 0) {
    failed += 1
    notes.push(`the runner ended with ${exitCode}, though no test failed`)
  }
  return { passed, failed, notes }
}
