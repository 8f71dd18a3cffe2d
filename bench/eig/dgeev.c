/*
 * Eigenvalues by LAPACK's dgeev, to be compared with src/math/eigen in one run.
 *
 * Usage: dgeev FILE. The file holds doubles in the machine's order: count, then for each matrix its order n and n*n
 * elements by rows. For every line "passes\n" on standard input it takes that many passes over all matrices and prints
 * one line: nanoseconds per pass by the clock and of processor time. "values\n" prints the sum of the real parts of every matrix, one line.
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

extern void dgeev_(const char *jobvl, const char *jobvr, const int *n, double *a, const int *lda, double *wr, double *wi,
                   double *vl, const int *ldvl, double *vr, const int *ldvr, double *work, const int *lwork, int *info,
                   size_t, size_t);

enum { LARGEST = 256, WORK = 64 * LARGEST };

static double matrix[LARGEST * LARGEST], wr[LARGEST], wi[LARGEST], work[WORK], none[1];

static int eigenvalues(const double *a, int n) {
  const int one = 1, lwork = WORK;
  int info = 0;
  memcpy(matrix, a, sizeof(double) * (size_t)n * (size_t)n);
  dgeev_("N", "N", &n, matrix, &n, wr, wi, none, &one, none, &one, work, &lwork, &info, 1, 1);
  return info;
}

static double now(clockid_t clock) {
  struct timespec at;
  clock_gettime(clock, &at);
  return (double)at.tv_sec * 1e9 + (double)at.tv_nsec;
}

int main(int argc, char **argv) {
  FILE *file = argc > 1 ? fopen(argv[1], "rb") : NULL;
  if (file == NULL) return fprintf(stderr, "usage: dgeev FILE\n"), 2;
  fseek(file, 0, SEEK_END);
  const size_t size = (size_t)ftell(file);
  rewind(file);
  double *data = malloc(size);
  if (data == NULL || fread(data, 1, size, file) != size) return fprintf(stderr, "cannot read %s\n", argv[1]), 2;
  fclose(file);
  const int count = (int)data[0];
  char line[64];
  while (fgets(line, sizeof line, stdin) != NULL) {
    if (strcmp(line, "values\n") == 0) {
      const double *at = data + 1;
      for (int m = 0; m < count; m++) {
        const int n = (int)*at++;
        double sum = 0;
        if (eigenvalues(at, n) != 0) return fprintf(stderr, "no convergence in matrix %d\n", m), 1;
        for (int i = 0; i < n; i++) sum += wr[i];
        printf("%.17g%c", sum, m + 1 < count ? ' ' : '\n');
        at += n * n;
      }
      fflush(stdout);
      continue;
    }
    const int passes = atoi(line);
    const double wall = now(CLOCK_MONOTONIC), used = now(CLOCK_PROCESS_CPUTIME_ID);
    for (int p = 0; p < passes; p++) {
      const double *at = data + 1;
      for (int m = 0; m < count; m++) {
        const int n = (int)*at++;
        if (eigenvalues(at, n) != 0) return 1;
        at += n * n;
      }
    }
    const double usedEnd = now(CLOCK_PROCESS_CPUTIME_ID), wallEnd = now(CLOCK_MONOTONIC);
    printf("%.17g %.17g\n", (wallEnd - wall) / passes, (usedEnd - used) / passes);
    fflush(stdout);
  }
  return 0;
}
