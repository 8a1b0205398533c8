# Headings of a help, and errors of use.

usage-usage = Usage:
usage-options = Options
usage-commands = Commands
usage-write-down = Write down
usage-ask-and-keep = Ask and keep
usage-example = Example:
usage-examples = Examples:
usage-help = Show this message and exit.
usage-language = Speak this language; default: the book's, else yours.
usage-version = Show the version and exit.
usage-default = default: { $value }
usage-required = required

## Errors of use

# $command: `croftbook harvest --help`
usage-see = See `{ $command }`
usage-no-command = { $near ->
        [none] There is no command { $name }.
       *[other] There is no command { $name }. Did you mean { $near }?
    }
usage-no-question = { $near ->
        [none] There is no question { $name }. Ask one of: { LIST($known, type: "commas") }.
       *[other] There is no question { $name }. Did you mean { $near }?
    }
# $n: how many options are near
usage-no-option = { $n ->
        [0] No such option { $name }.
        [one] No such option { $name }. Did you mean { $near }?
       *[other] No such option { $name }. (Did you mean one of: { LIST($near, type: "commas") }?)
    }
usage-missing-option = Missing option { $param }.
usage-missing-argument = Missing argument { $param }.
usage-choose = Choose from: { LIST($known, type: "commas") }.
usage-no-value = Option { $name } does not take a value.
usage-needs-value = Option { $name } requires an argument.
# $reason: a sentence of its own, without its full stop
usage-bad = Invalid value for { $param }: { $reason }.
usage-not-one-of = { $value } is not one of { LIST($known, type: "commas") }
# $low, $high: whole numbers, or none
usage-out-of-range = { $high ->
        [none] { $value } is not in the range x>={ $low }
       *[other] { $value } is not in the range { $low }<=x<={ $high }
    }
usage-no-integer = { $value } is not a valid integer
usage-no-number = { $value } is not a valid float
usage-too-many = { $n ->
        [one] Got unexpected extra argument ({ $words })
       *[other] Got unexpected extra arguments ({ $words })
    }
usage-no-language = { $value } is no language that has texts here. Write one of: { LIST($known, type: "commas") }.
