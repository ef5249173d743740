/** What can be said on the command line. */
export const help = `wareboard: what to make when, for a slab pottery

  plan [FILE]                   the plan, to pin to the wall   [--days N]
  now [FILE]                    what needs hands now and next
  runs [FILE]                   what is under way, by the names that \`log\` takes
  promise DESIGN COUNT [FILE]   a date for a new order, and the odds   [--glaze G]
  window --thickness MM         how long a slab has, under each cover
                                [--spot S] [--clay C] [--at DATE]...
  log KIND RUN ...              one thing that happened: cut, joined, refined, decorated, covered,
                                moved, felt, lost, second, glazed, finished, fired, opened,
                                corrected.
                                RUN as \`runs\` names it, or its design where only one is under way
                                [--count N] [--design D] [--step S] [--cover C] [--spot S]
                                [--glaze G] [--cause C] [--by MAKER] [--at "this morning"]
  log -                         entries as JSON from standard input
  import studio FILE            a whole studio   [--replace]
  import air FILE --spot NAME   an air log, any logger's CSV   [--outdoor --set-point C]
  export [FILE]                 the whole studio as one file
  backup                        a dated copy of all that the folder holds, plans too
  restore FILE                  back to that; without FILE it says which there are
  example                       the example studio, into an empty folder
  doctor [FILE]                 whether all is well

  With FILE no database is used. Otherwise the studio is the one in --folder (or WAREBOARD_FOLDER,
  or ./data), in the database that DATABASE_URL names, or in the program that runs on that folder;
  its plan is the one that the pages show, unless --seed or --effort ask for another.

  --json          for machines             --units us    inches, °F, pounds
  --seed N        another set of futures   --effort N    rounds of improvement
  --now TIME      as if it were then, by the studio’s clock: 2026-11-25T08:00

  Exit codes: 0 done, 1 a fault, 2 bad input, 3 the folder is in use.`
