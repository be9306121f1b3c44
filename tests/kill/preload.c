/*
 * Loaded in front of the C library: counts the calls that change a disk and ends the process, or refuses it
 * room, at the n-th of them. Calls on descriptors 0 to 2 are not counted.
 *
 *   LONGPOINT_KILL_AT=n      SIGKILL at the n-th call, before it; at a write, after half of its bytes
 *   LONGPOINT_FULL_AT=n      from the n-th call on, whatever needs room on the disk fails with ENOSPC
 *   LONGPOINT_NO_EXCHANGE=1  renameat2 fails, as on a file system that cannot exchange two names
 *   LONGPOINT_NO_LINK=1      links fail, as on a file system that has none
 *   LONGPOINT_COUNT=file     at a regular end the number of calls is written to this file
 *
 * Waiting for the disk (fsync) is counted and not done: a killed process loses nothing by it.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <unistd.h>

static atomic_long calls;
static long kill_at = -1, full_at = -1;
static int no_exchange, no_link;

static long number(const char *name) {
    const char *text = getenv(name);
    return text ? atol(text) : -1;
}

__attribute__((constructor)) static void begin(void) {
    kill_at = number("LONGPOINT_KILL_AT");
    full_at = number("LONGPOINT_FULL_AT");
    no_exchange = number("LONGPOINT_NO_EXCHANGE") > 0;
    no_link = number("LONGPOINT_NO_LINK") > 0;
}

__attribute__((destructor)) static void end(void) {
    const char *path = getenv("LONGPOINT_COUNT");
    long n = atomic_load(&calls);
    FILE *file = path ? fopen(path, "w") : NULL;
    if (file) {
        fprintf(file, "%ld\n", n);
        fclose(file);
    }
}

static void die(void) {
    kill(getpid(), SIGKILL);
    for (;;) pause();
}

/* Counts a call; 1 when the process is to end at it. */
static int due(void) { return atomic_fetch_add(&calls, 1) + 1 == kill_at; }

static int full(void) { return full_at >= 0 && atomic_load(&calls) >= full_at; }

#define STEP() do { if (due()) die(); } while (0)
#define NEEDS_ROOM() do { STEP(); if (full()) { errno = ENOSPC; return -1; } } while (0)
#define REAL(type, name, ...) \
    static type (*real)(__VA_ARGS__); \
    if (!real) real = (type (*)(__VA_ARGS__))dlsym(RTLD_NEXT, name)

#define WRITES(flags) (((flags) & O_ACCMODE) != O_RDONLY || ((flags) & (O_CREAT | O_TRUNC)))
#define OPEN(name) \
    int name(const char *path, int flags, ...) { \
        REAL(int, #name, const char *, int, ...); \
        va_list rest; va_start(rest, flags); mode_t mode = va_arg(rest, mode_t); va_end(rest); \
        if (WRITES(flags)) { if (flags & O_CREAT) NEEDS_ROOM(); else STEP(); } \
        return real(path, flags, mode); \
    }
#define OPENAT(name) \
    int name(int at, const char *path, int flags, ...) { \
        REAL(int, #name, int, const char *, int, ...); \
        va_list rest; va_start(rest, flags); mode_t mode = va_arg(rest, mode_t); va_end(rest); \
        if (WRITES(flags)) { if (flags & O_CREAT) NEEDS_ROOM(); else STEP(); } \
        return real(at, path, flags, mode); \
    }
OPEN(open)
OPEN(open64)
OPENAT(openat)
OPENAT(openat64)

ssize_t write(int fd, const void *bytes, size_t n) {
    REAL(ssize_t, "write", int, const void *, size_t);
    if (fd <= 2) return real(fd, bytes, n);
    if (due()) { (void)!real(fd, bytes, n / 2); die(); }
    if (full()) { errno = ENOSPC; return -1; }
    return real(fd, bytes, n);
}
ssize_t writev(int fd, const struct iovec *list, int n) {
    REAL(ssize_t, "writev", int, const struct iovec *, int);
    if (fd > 2) NEEDS_ROOM();
    return real(fd, list, n);
}
ssize_t pwrite64(int fd, const void *bytes, size_t n, off64_t at) {
    REAL(ssize_t, "pwrite64", int, const void *, size_t, off64_t);
    NEEDS_ROOM();
    return real(fd, bytes, n, at);
}
ssize_t copy_file_range(int a, off64_t *x, int b, off64_t *y, size_t n, unsigned flags) {
    REAL(ssize_t, "copy_file_range", int, off64_t *, int, off64_t *, size_t, unsigned);
    NEEDS_ROOM();
    return real(a, x, b, y, n, flags);
}
ssize_t sendfile64(int a, int b, off64_t *at, size_t n) {
    REAL(ssize_t, "sendfile64", int, int, off64_t *, size_t);
    if (a > 2) NEEDS_ROOM();
    return real(a, b, at, n);
}

int mkdir(const char *path, mode_t mode) {
    REAL(int, "mkdir", const char *, mode_t);
    NEEDS_ROOM();
    return real(path, mode);
}
int rename(const char *from, const char *to) {
    REAL(int, "rename", const char *, const char *);
    STEP();
    return real(from, to);
}
int renameat2(int a, const char *from, int b, const char *to, unsigned flags) {
    REAL(int, "renameat2", int, const char *, int, const char *, unsigned);
    if (no_exchange && flags) { errno = EINVAL; return -1; }
    STEP();
    return real(a, from, b, to, flags);
}
int linkat(int a, const char *from, int b, const char *to, int flags) {
    REAL(int, "linkat", int, const char *, int, const char *, int);
    if (no_link) { errno = EPERM; return -1; }
    NEEDS_ROOM();
    return real(a, from, b, to, flags);
}
int link(const char *from, const char *to) { return linkat(AT_FDCWD, from, AT_FDCWD, to, 0); }
int symlink(const char *text, const char *path) {
    REAL(int, "symlink", const char *, const char *);
    NEEDS_ROOM();
    return real(text, path);
}
int unlink(const char *path) {
    REAL(int, "unlink", const char *);
    STEP();
    return real(path);
}
int unlinkat(int at, const char *path, int flags) {
    REAL(int, "unlinkat", int, const char *, int);
    STEP();
    return real(at, path, flags);
}
int rmdir(const char *path) {
    REAL(int, "rmdir", const char *);
    STEP();
    return real(path);
}
int ftruncate64(int fd, off64_t n) {
    REAL(int, "ftruncate64", int, off64_t);
    STEP();
    return real(fd, n);
}
int chmod(const char *path, mode_t mode) {
    REAL(int, "chmod", const char *, mode_t);
    STEP();
    return real(path, mode);
}
int fchmod(int fd, mode_t mode) {
    REAL(int, "fchmod", int, mode_t);
    STEP();
    return real(fd, mode);
}
int futimens(int fd, const struct timespec times[2]) {
    REAL(int, "futimens", int, const struct timespec *);
    STEP();
    return real(fd, times);
}
int fsync(int fd) { (void)fd; STEP(); return 0; }
int fdatasync(int fd) { (void)fd; STEP(); return 0; }
