import { describe, expect, it } from 'vitest';
import { describeProblem } from './errors.js';

const problem = { path: 'title', expected: 'one line', received: '"a"', remedy: 'shorten it' };

describe('the text of a problem', () => {
  it('is one line: place, path, what was expected, what was received, what to do', () => {
    expect(describeProblem({ ...problem, file: 'joint.yaml', line: 5 })).toBe(
      'joint.yaml:5: title: expected one line, received "a"; shorten it',
    );
  });

  it('shows what would steer a terminal: escapes, ends of lines, turned writing', () => {
    const file = 'a\u001b[2J\u009b31m\r\nb\u202e\u2028.yaml';
    expect(describeProblem({ ...problem, file })).toMatch(
      /^a\\u001b\[2J\\u009b31m\\u000d\\u000ab\\u202e\\u2028\.yaml: /,
    );
  });
});
