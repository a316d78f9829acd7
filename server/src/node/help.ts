/** What `help` says: every command, its options, its exit statuses. */
const HELP = `Usage: scribeline COMMAND …

  check PATH…      check part, shop and job files; folders and globs are searched
    --format text|json|sarif|github|junit|comments   the form of the report (text)
    --shop FILE                check every part by this shop
    --fix                      write the fixes that keep the shape into the files first
    --since REV                only what changed since this git revision: parts, and parts whose shop or job changed
    --known FILE               only findings that this report of --format json does not have
    --fail-at error|warning|hint   lowest severity that makes the exit status 1 (error)
    --facts                    show the figures, cuts, defaults and limits behind the answer (text, json)
    --allow-warnings N         more warnings than this count as failure
    --variant NAME             of a part in many sizes only this one; also of plan, export and sheet (all of them)
    --no-color                 plain text (also: the variable NO_COLOR)
  plan PATH…       find the fewest set-ups in which every feature is held and reached; say why each is needed
    --write                    write them into the part, instead of the set-ups there
    --format text|json         json: format 1, with minutes and fewer set-ups in another way of holding
    --shop FILE                plan for this shop
  export PATH… --to FILE   write a part as a file; the ending of the name is the format
    --to FORMAT                next to the part file, with the same name; never overwrites a file
    --face FACE                flat formats: the face that is drawn
    --drawing                  the dimensioned drawing, as svg or dxf too. A pdf is always a drawing;
                               a job or several parts go into one pdf
    --paper a4|a3|letter|tabloid   paper of a drawing (A4, or A3 where it needs that)
    --language en|de           words of a drawing (en)
    --shop FILE                as for check
  sheet PATH… --to FILE   papers of a part and its set-ups, or of a whole job (pdf, html, md)
    --to FORMAT                next to the part file, with the same name; never overwrites a file
    --paper a4|letter          paper to print on (a4)
    --language en|de           words of the sheet (en)
    --shop FILE                as for check
  job FILE --to FILE   a whole job: mass, hours, what to buy, cut list, order of the day
    --to FILE                  NAME.pdf, .html, .md, .json, .csv; left out: printed here
    --paper, --language        as for sheet
    --shop FILE                as for check
  record FILE      what was measured, and the time needed (NAME.record.yaml); what this shop reaches
    --format text|json         the form of the report (text)
    --shop FILE                as for check
  compare OLD NEW  what changed in the part: two files, folders or jobs, or REV:PATH of a git revision
    --format text|json|md|html the form of the report (text)
    --to FILE                  into a file: .html with a view that turns, .md with pictures beside it, .json, .txt
    --since REV                instead of OLD: the same file or folder in that revision
  git on|off       let git compare parts by meaning and merge them entry by entry, in this repository
  tell FILE        the meaning of a part, one line for each thing: git compares these lines
  merge BASE OURS THEIRS   merge two revisions of a document into OURS
  tables [NAME]    every table and limit behind the answers, each row with its source
    --format text|json         the form of the report (text)
  why RULE         what a rule checks, why, and where its limits come from
  new NAME         write NAME.part.yaml, a part to start from, planned; NAME.shop a shop, NAME.job a job of the parts here
    --stock WORDS              a part: of this piece at hand, 'flat-bar 40 x 16'; else you are asked at a terminal
    --like bearing-block|plate|blank   a part: what it is like (bearing-block)
    --shop FILE                a part: for this shop
    --without NAME,NAME        a shop: these entries of the everyday one are not there
    --parts FILE,FILE          a job: these parts alone
  import FILE…     cutters of a list as tools of a shop: ISO 13399 (P21) or a table (CSV) headed by its codes or by words
    --shop FILE                the shop: in its units, and without what it has
    --write                    write the new ones into that shop
    --format text|json         json: what became of each row
  serve --stdio    the language server, for any editor
  help, --version

Exit status: 0 no errors, 1 errors found, 2 the command could not do its work. That is: a file,
folder or named shop could not be read, or the output could not be written.
\`plan\` ends with 1 if no plan cuts all of the part, or some text could not be read.
\`import\` ends with 1 if some row of a list is no tool, which is told of each.
\`serve\` ends as its protocol says.
`;

/** Of one command its lines and how all of them end; of none, or of a word that is none, all. */
export function helpOf(command?: string): readonly string[] {
  const lines = HELP.trimEnd().split('\n');
  const first = lines.findIndex((line) => line.startsWith(`  ${command} `));
  if (command === undefined || first < 0) return lines;
  const length = lines.slice(first + 1).findIndex((line) => !line.startsWith('    '));
  const ends = lines.findIndex((line) => line.startsWith('Exit status'));
  return [...lines.slice(0, 2), ...lines.slice(first, first + 1 + length), '', ...lines.slice(ends)];
}
