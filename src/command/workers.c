/* sched_getaffinity and memfd_create are not of POSIX */
#define _GNU_SOURCE

#include "command/workers.h"

#include <errno.h>
#include <sched.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

typedef struct Worker {
    pid_t process;
    int answers; /* read end of its pipe */
    bool lost;
} Worker;

/* What a worker sends of one task; the bytes of both streams follow. */
typedef struct Answer {
    int result;
    size_t said[2];
} Answer;

int workers_processors(void) {
    cpu_set_t set;
    int count = sched_getaffinity(0, sizeof set, &set) == 0 ? CPU_COUNT(&set) : 1;
    return count < 1 ? 1 : count > WORKERS_MOST ? WORKERS_MOST : count;
}

/* ---- In a worker ----------------------------------------------------------------------------- */

static bool send_all(int to, const void *bytes, size_t length) {
    const uint8_t *at = bytes;
    while (length > 0) {
        ssize_t sent = write(to, at, length);
        if (sent < 0 && errno == EINTR)
            continue;
        if (sent <= 0)
            return false;
        at += sent;
        length -= (size_t)sent;
    }
    return true;
}

/* Sends what a stream took up since the last time, and empties it. */
static bool send_said(int to, int stream, size_t length) {
    uint8_t bytes[4096];
    off_t from = 0;
    while (length > 0) {
        ssize_t got = pread(stream, bytes, length < sizeof bytes ? length : sizeof bytes, from);
        if (got <= 0 || !send_all(to, bytes, (size_t)got))
            return false;
        from += got;
        length -= (size_t)got;
    }
    return ftruncate(stream, 0) == 0 && lseek(stream, 0, SEEK_SET) == 0;
}

static bool send_answer(int to, int result) {
    static const int streams[] = {STDOUT_FILENO, STDERR_FILENO};
    Answer answer = {.result = result};
    fflush(stdout);
    for (int i = 0; i < 2; i++) {
        off_t end = lseek(streams[i], 0, SEEK_END);
        if (end < 0)
            return false;
        answer.said[i] = (size_t)end;
    }
    return send_all(to, &answer, sizeof answer) && send_said(to, STDOUT_FILENO, answer.said[0]) &&
           send_said(to, STDERR_FILENO, answer.said[1]);
}

static bool catch_stream(int stream) {
    int memory = memfd_create("said", MFD_CLOEXEC);
    return memory >= 0 && dup2(memory, stream) == stream && close(memory) == 0;
}

_Noreturn static void be_worker(int answers, size_t first, size_t step, size_t count,
                                const WorkerTasks *tasks) {
    if (!catch_stream(STDOUT_FILENO) || !catch_stream(STDERR_FILENO))
        _exit(EXIT_FAILURE);
    for (size_t task = first; task < count; task += step)
        if (!send_answer(answers, tasks->work(tasks->context, task)))
            _exit(EXIT_FAILURE);
    _exit(EXIT_SUCCESS);
}

/* ---- In the parent --------------------------------------------------------------------------- */

static bool receive_all(int from, void *bytes, size_t length) {
    uint8_t *at = bytes;
    while (length > 0) {
        ssize_t got = read(from, at, length);
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0)
            return false;
        at += got;
        length -= (size_t)got;
    }
    return true;
}

static bool pass_on(int from, size_t length, FILE *to) {
    uint8_t bytes[4096];
    while (length > 0) {
        size_t part = length < sizeof bytes ? length : sizeof bytes;
        if (!receive_all(from, bytes, part))
            return false;
        fwrite(bytes, 1, part, to);
        length -= part;
    }
    return true;
}

static bool take_answer(const Worker *worker, size_t task, const WorkerTasks *tasks) {
    Answer answer;
    if (!receive_all(worker->answers, &answer, sizeof answer))
        return false;
    tasks->done(tasks->context, task, answer.result);
    return pass_on(worker->answers, answer.said[0], stdout) &&
           pass_on(worker->answers, answer.said[1], stderr);
}

static bool start(Worker *workers, size_t index, size_t step, size_t count,
                  const WorkerTasks *tasks) {
    int ends[2];
    if (pipe(ends) != 0)
        return false;
    pid_t process = fork();
    if (process == 0) {
        for (size_t i = 0; i < index; i++)
            close(workers[i].answers);
        close(ends[0]);
        be_worker(ends[1], index, step, count, tasks);
    }
    close(ends[1]);
    if (process < 0)
        close(ends[0]);
    else
        workers[index] = (Worker){.process = process, .answers = ends[0]};
    return process > 0;
}

/* With nobody to read its answers a worker ends at its next one. */
static void finish(Worker *workers, size_t count) {
    for (size_t i = 0; i < count; i++)
        close(workers[i].answers);
    for (size_t i = 0; i < count; i++)
        while (waitpid(workers[i].process, NULL, 0) < 0 && errno == EINTR)
            continue;
}

bool workers_do(int workers, size_t count, const WorkerTasks *tasks) {
    Worker all[WORKERS_MOST] = {{0}};
    size_t step = (size_t)workers;
    fflush(stdout);
    fflush(stderr);
    for (size_t i = 0; i < step; i++)
        if (!start(all, i, step, count, tasks)) {
            finish(all, i);
            return false;
        }
    for (size_t task = 0; task < count; task++) {
        Worker *worker = &all[task % step];
        if (worker->lost || take_answer(worker, task, tasks))
            continue;
        worker->lost = true;
        tasks->lost(tasks->context, task);
    }
    finish(all, step);
    return true;
}
