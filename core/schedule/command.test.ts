import { describe, expect, it } from "vitest";
import { runSchedule } from "./command.ts";
import { EXAMPLE } from "./example.ts";
import { faultOf, type Project } from "./rcpsp/project.ts";
import { readProject } from "./rcpsp/read.ts";

// Written for these tests: four jobs between two dummies on two pairs of hands, 16 minutes of work. Job 4 takes
// both hands after job 2. For 8 minutes both would have to be busy throughout, and 3, 4 and 5 minutes do not split
// into equal halves before and after job 4. 9 is reached: 2 then 3 beside 5, and 4 from minute 7.
const SM = `************
jobs (incl. supersource/sink ):  6
RESOURCES
  - renewable                 :  1   R
************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          3           2   3   5
   2        1          1           4
   3        1          1           6
   4        1          1           6
   5        1          1           6
   6        1          0
************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1
------------------------------------
  1      1     0       0
  2      1     3       1
  3      1     4       1
  4      1     2       2
  5      1     5       1
  6      1     0       0
************
RESOURCEAVAILABILITIES:
  R 1
    2
************
`;

// Two activities of 3 and 2 on one resource of one; the second starts at most 1 before and 4 after the first.
const SCH = (most: number) => `2\t1\t0\t0
0\t1\t2\t1\t2\t[0]\t[0]
1\t1\t2\t2\t3\t[-1]\t[3]
2\t1\t2\t1\t3\t[-${most}]\t[2]
3\t1\t0
0\t1\t0\t0
1\t1\t3\t1
2\t1\t2\t1
3\t1\t0\t0
1
`;

describe("S16: project files are known by their content", () => {
  it("single-mode files: optimum proved, starts keep the rules", () => {
    const answer = runSchedule(SM, { schedules: 500 });
    if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
    const { status, makespan, lowerBound, starts } = answer.value;
    expect({ status, makespan, lowerBound }).toEqual({ status: "optimal", makespan: 9, lowerBound: 9 });
    expect(faultOf(readProject(SM) as Project, starts!)).toBeNull();
  });

  it("files with lags both ways: feasible or proved infeasible", () => {
    const yes = runSchedule(SCH(4), { schedules: 100 });
    expect(yes).toMatchObject({ ok: true, value: { status: "optimal", makespan: 5 } });
    // At most 2 after the first start, but the first lasts 3, and the second is not wholly before it either.
    const no = runSchedule(SCH(2), { schedules: 100 });
    expect(no).toMatchObject({ ok: true, value: { status: "infeasible", makespan: null, starts: null } });
  });

  it("carriage returns and capitals change nothing", () => {
    const shouted = SM.toUpperCase().replaceAll("\n", "\r\n");
    expect(runSchedule(shouted, { schedules: 500 })).toEqual(runSchedule(SM, { schedules: 500 }));
  });

  it("tabs for blanks and empty lines around change nothing", () => {
    const tabbed = `\n${SM.replaceAll(/ +/g, "\t")}\t\n\n`;
    expect(runSchedule(tabbed, { schedules: 500 })).toEqual(runSchedule(SM, { schedules: 500 }));
    const loose = `\n\n${SCH(4)}\t\n\n`.replaceAll("\n", "\r\n");
    expect(runSchedule(loose, { schedules: 100 })).toEqual(runSchedule(SCH(4), { schedules: 100 }));
  });

  it("a mark of the byte order and line ends of any kind change nothing", () => {
    for (const text of [`\ufeff${SM}`, SM.replaceAll("\n", "\r\n"), SM.replaceAll("\n", "\r")])
      expect(runSchedule(text, { schedules: 100 })).toEqual(runSchedule(SM, { schedules: 100 }));
    const own = JSON.stringify(EXAMPLE);
    expect(runSchedule(`\ufeff${own}`, { schedules: 10 })).toEqual(runSchedule(own, { schedules: 10 }));
  });

  it("a demand no capacity can serve is an answer: infeasible, and named", () => {
    const asks = runSchedule(SM.replace("4      1     2       2", "4      1     2       9"), {
      schedules: 10,
    });
    const why = ["activity 4 needs 9 of resource 1, which has 2"];
    expect(asks).toMatchObject({ ok: true, value: { status: "infeasible", starts: null, why } });
  });

  it("stops when asked, with the best so far", () => {
    let asked = 0;
    const answer = runSchedule(SM, { stop: () => ++asked > 3 });
    expect(answer).toMatchObject({ ok: true, value: { makespan: expect.any(Number) } });
    expect(asked).toBeGreaterThan(3);
  });

  const bad: [string, string, RegExp][] = [
    [
      "a circle",
      SM.replace("6        1          0", "6        1          1    1"),
      /1 > .*6 > 1 wait for each other in a circle/,
    ],
    [
      "a job for itself",
      SM.replace("4        1          1           6", "4        1          1           4"),
      /4 > 4 wait for each other in a circle/,
    ],
    [
      "a job told twice",
      SM.replace("  5      1     5       1", "  2      1     5       1"),
      /activity 2 is told twice/,
    ],
    ["a duration below zero", SM.replace("3      1     4", "3      1    -4"), /activity 3 lasts -4/],
    [
      "a duration beyond measure",
      SM.replace("3      1     4", "3      1     999999999"),
      /one after the other/,
    ],
    ["two modes", SM.replace("3      1     4", "3      2     4"), /mode 2 stands here/],
    ["a job without a duration", SM.replace(/\n {2}5 {6}1 {5}5 .*/, ""), /activity 5 has no duration/],
    ["two projects", SM + SM, /stands twice/],
    [
      "another number of jobs",
      `jobs (incl. supersource/sink ):  9\n${SM}`,
      /9 jobs are announced, 6 are told/,
    ],
    ["nothing", " \n", /the file is empty/],
    [
      "a demand below zero",
      SM.replace("3      1     4       1", "3      1     4      -1"),
      /less than nothing/,
    ],
    ["a duration below zero", SCH(4).replace("1\t1\t3\t1", "1\t1\t-3\t1"), /activity 1 lasts -3/],
    [
      "a missing section",
      SM.replace("RESOURCEAVAILABILITIES", "NOTHING"),
      /RESOURCEAVAILABILITIES is missing/,
    ],
    ["a successor that is not there", SM.replace("2   3   5", "2   3   9"), /no activity 9/],
    [
      "a wrong count",
      SM.replace("3           2   3   5", "2           2   3   5"),
      /3 successors, 2 announced/,
    ],
    ["several modes", SM.replace("   3        1 ", "   3        2 "), /2 modes/],
    ["a word for a figure", SM.replace("  3      1     4", "  3      1     x"), /"x" is not a whole number/],
    ["a short file", SCH(4).split("\n").slice(0, 6).join("\n"), /6 lines, 10 are needed/],
    ["a missing lag", SCH(4).replace("\t[3]", ""), /figures/],
    ["neither", "hello", /neither a project file/],
    ["JSON of another kind", '{"a": 1}', /./],
  ];
  for (const [name, text, what] of bad)
    it(`refuses ${name} with the place`, () => {
      const answer = runSchedule(text);
      expect(answer.ok).toBe(false);
      if (!answer.ok) expect(answer.problems.map((p) => `${p.path} ${p.what}`).join("\n")).toMatch(what);
    });
});

describe("S16: problems of our own", () => {
  const problem = {
    horizon: 100,
    tasks: [
      { id: "a", modes: [{ duration: 10, people: [{ count: 1 }] }] },
      { id: "b", modes: [{ duration: 20, people: [{ count: 1 }] }] },
    ],
    lags: [{ from: { task: "a", at: "end" }, to: { task: "b", at: "start" }, least: 5 }],
    persons: [{ id: "p", skills: [], shifts: [{ from: 0, to: 90 }] }],
    objective: { makespan: 1 },
  };
  it("gives report and result", () => {
    const answer = runSchedule(JSON.stringify(problem), { schedules: 50 });
    expect(answer).toMatchObject({
      ok: true,
      value: { status: "optimal", makespan: 35, lowerBound: 35, starts: [0, 15] },
    });
  });
  it("refuses unknown fields and nonsense with a JSON Pointer", () => {
    const odd = { ...problem, tasks: [{ ...problem.tasks[0], colour: "red" }, problem.tasks[1]] };
    expect(runSchedule(JSON.stringify(odd))).toMatchObject({ ok: false, problems: [{ path: "/tasks/0" }] });
    const none = { ...problem, persons: [] };
    expect(runSchedule(JSON.stringify(none))).toMatchObject({
      ok: false,
      problems: [{ path: "/tasks/0/modes/0/people/0" }, {}],
    });
  });
  const [a, b] = problem.tasks;
  const oven = { id: "oven", capacity: [5], dimensions: ["shelves"] };
  const bakes = (of: string, amount: number) => ({
    ...a,
    modes: [{ duration: 10, resources: [{ of: [of], amount: [amount] }] }],
  });
  /** Written as a person might: what is refused, where, why, and how to mend it. */
  const refused: [string, object, string, RegExp, RegExp][] = [
    [
      "a duration below zero",
      { tasks: [{ ...a, modes: [{ duration: -5 }] }, b] },
      "/tasks/0/modes/0/duration",
      /^"a" lasts -5 min$/,
      /0 or more/,
    ],
    [
      "a resource nobody has",
      { resources: [oven], tasks: [bakes("stove", 1), b] },
      "/tasks/0/modes/0/resources/0/of/0",
      /^no resource is called "stove"$/,
      /name a resource/,
    ],
    [
      "a demand above the capacity",
      { resources: [oven], tasks: [bakes("oven", 7), b] },
      "/tasks/0/modes/0/resources/0",
      /^"a": needs 7 of shelves, "oven" has 5$/,
      /ask for less/,
    ],
    [
      "a person without a working minute",
      { persons: [{ id: "p", skills: [], shifts: [{ from: 200, to: 300 }] }] },
      "/persons/0/shifts",
      /^"p" has no working minute$/,
      /give a shift/,
    ],
    [
      "a resource that is never open",
      { resources: [{ ...oven, calendar: [{ from: -50, to: 0, capacity: [5] }] }] },
      "/resources/0/calendar",
      /^"oven" is never available$/,
      /give it an interval/,
    ],
    [
      "tasks that wait for each other",
      {
        lags: [...problem.lags, { from: { task: "b", at: "end" }, to: { task: "a", at: "start" }, least: 0 }],
      },
      "/lags",
      /wait for each other in a circle$/,
      /take one of these least lags out/,
    ],
    [
      "a skill nobody has",
      { tasks: [{ ...a, modes: [{ duration: 5, people: [{ count: 1, skill: "saw" }] }] }, b] },
      "/tasks/0/modes/0/people/0",
      /^"a" needs 1 with the skill "saw", there are 0$/,
      /add persons or the skill/,
    ],
    [
      "a lag to no task",
      { lags: [{ from: { task: "a", at: "end" }, to: { task: "z", at: "start" } }] },
      "/lags/0/to/task",
      /^no task is called "z"$/,
      /name a task/,
    ],
    ["a word for a figure", { horizon: "long" }, "/horizon", /^horizon is "long"$/, /^give a number$/],
    [
      "what is missing",
      { tasks: [{ id: "a" }, b] },
      "/tasks/0/modes",
      /^modes is missing$/,
      /a list in square brackets/,
    ],
    ["a figure for a list", { tasks: 7 }, "/tasks", /^tasks is 7$/, /a list in square brackets/],
    [
      "a choice that is none",
      { lags: [{ ...problem.lags[0], to: { task: "b", at: "middle" } }] },
      "/lags/0/to/at",
      /^at is "middle"$/,
      /^give one of "start", "end"$/,
    ],
    [
      "a misspelt field",
      { tasks: [{ ...a, relase: 5 }, b] },
      "/tasks/0",
      /^"relase" is not known here$/,
      /spelling/,
    ],
  ];
  for (const [name, change, path, what, mend] of refused)
    it(`refuses ${name} in plain words`, () => {
      const answer = runSchedule(JSON.stringify({ ...problem, ...change }));
      expect(answer.ok).toBe(false);
      const problems = answer.ok ? [] : answer.problems;
      const hit = problems.find((r) => r.path === path);
      expect(hit, JSON.stringify(problems)).toBeDefined();
      expect(hit!.what).toMatch(what);
      expect(hit!.mend).toMatch(mend);
      for (const r of problems)
        expect(`${r.what} ${r.mend}`).not.toMatch(/invalid|expected|received|undefined|NaN/i);
    });

  it("stops by the clock it is given", () => {
    let now = 0;
    const answer = runSchedule(SM, { seconds: 1, clock: () => (now += 10) });
    expect(answer).toMatchObject({ ok: true });
  });
});
