/* burnsheet: reads descriptions of cold-smoking batches and prints session sheets and labels. */
#include "command/run.h"

#include "base/diagnostic.h"

#include <stdio.h>
#include <string.h>

static const Command *const commands[] = {
    &command_new,    &command_sheet, &command_labels, &command_slip,  &command_plan,
    &command_record, &command_learn, &command_season, &command_trace, &command_check,
};

enum { COMMAND_COUNT = sizeof commands / sizeof *commands };

static void print_help(FILE *to) {
    fputs("burnsheet works out the fuel, the burn and the clock of cold-smoking batches and\n"
          "prints one-page session sheets and bag labels as PDF.\n\nusage:\n",
          to);
    for (size_t i = 0; i < COMMAND_COUNT; i++)
        fprintf(to, "  burnsheet %-7s %-10s %s\n", commands[i]->name, commands[i]->arguments,
                commands[i]->summary);
    fputs("\n'burnsheet COMMAND --help' lists the options of a command, --version the version;\n"
          "'man burnsheet' says it all.\n\n"
          "exit status: 0 done; 1 a batch has faults or a page can not fit; 2 wrong usage;\n"
          "3 something could not be read or written\n",
          to);
}

static void print_command_help(const Command *command) {
    printf("usage: burnsheet %s [OPTIONS] %s\n\n%s\n\noptions:\n", command->name,
           command->arguments, command->summary);
    options_help(stdout, command->options);
}

static const Command *find_command(const char *name) {
    for (size_t i = 0; i < COMMAND_COUNT; i++)
        if (!strcmp(commands[i]->name, name))
            return commands[i];
    return NULL;
}

/* A full disk or a closed pipe shows only when standard output is flushed. */
static int finish(ExitStatus status) {
    if (fflush(stdout) == 0 && !ferror(stdout))
        return (int)status;
    fputs("burnsheet: error: can not write to standard output\n", stderr);
    return STATUS_FILES;
}

static ExitStatus run(const Command *command, int count, char **words) {
    Options options;
    if (!options_read(command->name, command->options, count, words, &options))
        return STATUS_USAGE;
    if (options.help) {
        print_command_help(command);
        return STATUS_DONE;
    }
    if (options.file_count == 0 && !options.test_page)
        return run_refuse(command->name, command->missing ? command->missing : "no file given");
    return command->run(&options);
}

int main(int count, char **words) {
    if (count < 2) {
        print_help(stderr);
        return STATUS_USAGE;
    }
    if (!strcmp(words[1], "--help") || !strcmp(words[1], "-h")) {
        print_help(stdout);
        return finish(STATUS_DONE);
    }
    if (!strcmp(words[1], "--version")) {
        puts("burnsheet " BURNSHEET_VERSION);
        return finish(STATUS_DONE);
    }
    const Command *command = find_command(words[1]);
    if (!command) {
        say_line(stderr, "burnsheet: unknown command '%s'", words[1]);
        say_line(stderr, "see 'burnsheet --help'");
        return STATUS_USAGE;
    }
    return finish(run(command, count - 1, words + 1));
}
