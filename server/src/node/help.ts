/** What `help` says: every command, its options, its exit statuses. */
export const HELP = `Usage: scribeline COMMAND …

  check PATH…      judge part, shop and job files; folders and globs are searched
    --format text|json|sarif|github|junit|comments   how to say it (text)
    --shop FILE                judge every part by this shop
    --fix                      write the fixes that keep the shape into the files first
    --since REV                only what git has otherwise: parts, and parts whose shop or job changed
    --known FILE               only what that report of --format json does not have
    --fail-at error|warning|hint   from which severity on the status is 1 (error)
    --facts                    show the figures, cuts, defaults and limits behind the answer (text, json)
    --allow-warnings N         more warnings than this count as failure
    --no-color                 plain text (also: the variable NO_COLOR)
  plan PATH…       the fewest set-ups that hold and reach, and what each is there for
    --write                    write them into the part, in place of what is there
    --shop FILE                plan for this shop
  export PATH… --to FILE   write a part as a file; the name's ending is the format
    --to FORMAT                beside the part, under its name; nothing is written over
    --face FACE                of flat formats: the face that is drawn
    --drawing                  the dimensioned drawing, as svg or dxf too; pdf is always one, and a job or
                               several parts go into one file
    --paper a4|a3|letter|tabloid   of drawings (A4, or A3 where it takes that)
    --language en|de           of drawings: their words (en)
    --shop FILE                as of check
  sheet PATH… --to FILE   the part and its set-ups, or a job with all its parts, as papers (pdf, html, md)
    --to FORMAT                beside the part, under its name; nothing is written over
    --paper a4|letter          what it is printed on (a4)
    --language en|de           the sheet’s words (en)
    --shop FILE                as of check
  job FILE --to FILE   a whole job: mass, hours, what to buy, cut list, order of the day
    --to FILE                  NAME.pdf, .html, .md, .json, .csv; left out: told here
    --paper, --language        as of sheet
    --shop FILE                as of check
  record FILE      what was measured and what it took (NAME.record.yaml): what was out, what is held here
    --format text|json         how to say it (text)
    --shop FILE                as of check
  compare OLD NEW  what changed as a part: two files, folders or jobs, or REV:PATH of a git revision
    --format text|json|md|html how to say it (text)
    --to FILE                  into a file: .html with a view that turns, .md with pictures beside it, .json, .txt
    --since REV                in place of OLD: the same file or folder as that revision has it
  git on|off       differences of parts by sense, merges entry by entry, in this repository; off undoes it
  tell FILE        a part's sense, a line for each thing: what git on shows differences of
  merge BASE OURS THEIRS   put two revisions of a document together, into OURS
  tables [NAME]    every table and limit behind the answers, each row with its source
    --format text|json         how to say it (text)
  why RULE         what a rule says, why, and where its limits come from
  new NAME         write NAME.part.yaml, a commented part to start from; NAME.shop, NAME.job: a shop, a job
  serve --stdio    the language server, for any editor
  help, --version

Exit status: 0 no errors, 1 errors found, 2 the command could not do its work: a file or
folder that was named or found could not be read, a shop that was named is not there,
something could not be written, the answer itself among it (a full disk, a reader that
left). \`plan\` ends with 1 where no plan cuts all of a part, or where some of its text
could not be read. \`serve\` ends as its protocol says.
`;
