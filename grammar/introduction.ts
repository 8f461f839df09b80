/** How the language goes, for a volunteer who reads about it for the first time: the first part of the reference. */
export const INTRODUCTION = `# The language of Bothways

<!-- Written by \`npm run generate\` from the vocabulary in grammar/vocabulary: change that, not this. -->

A setup is a text. You write down, one fact a line, what the room is, what stands in it and who is where; Bothways reads it and
says what will be heard, seen, carried and powered. This is a whole setup:

\`\`\`bothways
setup "October"
room about 13 steps by 9 steps, chairs 24 in 4 rows
talker Ines at lectern
place laptop is laptop, near lectern
place box is battery-loudspeaker, near front
join laptop { plays sound on box }
online 8 people
\`\`\`

Say what you know and leave out the rest: what is missing is filled in with what is typical, marked as assumed, and asked for where
it matters.

## How it is written

**A fact is a line.** It begins with a word that says what it is about (\`room\`, \`place\`, \`join\`), and little words lead to what
follows: \`cable from laptop.hdmi to projector.hdmi\`. The order of the lines never matters. What stands behind \`#\` is for you alone.

**Facts about a fact** stand behind commas or in a block. These two say the same:

\`\`\`bothways
outlet porch at back, sockets 2, rated 13 A
outlet stage at front {
  sockets 2
  rated 13 A
}
\`\`\`

**Names** are yours, in any script; capitals make no difference. A name has no blanks: write \`front-screen\`. A point reaches into a
device: \`laptop.hdmi\` is its port, \`laptop.camera\` its camera. Texts with blanks stand in quotation marks: \`"the caretaker"\`.
\`and\` joins several: \`talkers Ines and Teo\`.

**Quantities have a unit**, and may be as vague as your knowledge:

\`\`\`bothways
room hall 32 ft by 24 ft by 3.1 m {
  noise 38 dBA measured 2026-10-07 18:40    # by whom it was measured does not matter, the day does
  reverberation 0.6 to 0.9 s                # somewhere between
  curtains heavy about 12 m2                # a tolerance that goes with the unit, see below
  floor wood
}
internet venue {
  up 4 Mb/s guessed                         # a quarter either way, or 5 dB for levels
  round-trip 30 ms within 20 to 60 ms       # a best guess and its range; \`within 10 ms\` is so much either way
  down unknown                              # as if it were not said, but you have said that you do not know
}
\`\`\`

Every figure is a range with a best guess, and keeps where it comes from: stated, measured, guessed, from the kind of device, or
assumed. A finding tells you which of them it hangs on.

**Places** are said as one would say them: \`at lectern\`, \`on table beside lectern\`, \`behind row 3\`, \`on Ines\` for what is worn, or a
measured point. [More on places](#places).

## What changes, what is not, what is many

\`during\` states what is different in one item of the programme, \`no\` says that something is not so, and \`each\` means all of a
numbered set.

\`\`\`bothways
room hall 11 m by 7 m
table ring at middle, size 4 m by 2 m
devices mic 1 to 4 is gooseneck-microphone
device desk is mixer
place each mic around ring
place desk at operator
place laptop is laptop, at operator
cable from each mic.plug to desk.in-1 and desk.in-2 and desk.in-3 and desk.in-4
cable from desk.usb to laptop.usb-1
item reports from 19:00
item song from 20:00
join laptop {
  sends sound from desk
  sends picture from laptop.camera at 720p30
  sends no picture during song
}
\`\`\`

A fact with \`during\` takes the place of the same fact without, for that item only.

## Several files

A room, a kit and an evening are best kept apart: the same kit in another room is then one line. \`use\` takes a file in, with all that
it uses itself; \`as\` puts a word before its names, should two files have the same. \`in\` says what differs in a room this evening.

\`\`\`bothways
setup "Annual meeting"
use "rooms/hall.bothways"
use "kit/ours.bothways" as ours
in hall { noise 44 dBA because "the heating is on" }
place ours.webcam at back, aim lectern
\`\`\`

## What you know better

\`because\` gives a reason to any fact. \`accept\` keeps a known risk quiet while it is no worse than you say, \`limit\` moves the mark at
which a finding is raised, and \`note\` is printed for your helpers. Comments never are.

\`\`\`bothways
setup "Annual meeting"
place laptop is laptop, at lectern
join laptop
accept one-device-carries-all of laptop because "Teo brings a second one"
limit battery-short 1 h because "the caretaker is often late"
note "The key hangs behind the hymn board."
\`\`\`

Statements are of four natures. A **fact** is found out, and no fix changes it. A **choice** is yours, and a fix may propose another. A
**wish** says what you want. A **note** is said to people. A few statements are only noted so far: they are printed for your helpers,
and nothing is judged by them yet. Each statement below says so.

In the patterns below, words in capitals stand for something, what is in brackets may be left out, and \`…\` stands for more of the
same. Behind any fact may stand \`because "…"\`, \`measured\` with a day and a time, or \`guessed\`.`;
