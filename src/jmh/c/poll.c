/*
 * What polling costs on this computer when it is done in C: the yardstick of leat.acquire.modbus.PollSpeed, which compiles and
 * runs it. Each connection asks for two input registers of unit 1, 20 times a second, on deadlines that neither drift nor pile
 * up. A deadline that has passed by more than half a period when the reply before it is in is missed, and not made up for.
 *
 *   poll serve                        one simulated device for any number of connections; prints its port
 *   poll threads PORT N WARMUP SECONDS   N connections, each with a thread and a blocking socket
 *   poll exact   PORT N WARMUP SECONDS   N connections, one thread, epoll until the very next deadline
 *   poll one     PORT N WARMUP SECONDS   the same with waits of whole milliseconds, rounded up, as leat has them
 *   poll timer   0    N WARMUP SECONDS   the deadlines alone: no sockets, only a sleep until the next one
 *
 * Prints: polls, missed, CPU microseconds of the whole process, lateness p50, p99 and max in microseconds.
 */
#define _GNU_SOURCE
#include <arpa/inet.h>
#include <errno.h>
#include <math.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <pthread.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/epoll.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <time.h>
#include <unistd.h>

enum { REQUEST = 12, REPLY = 13, MOST = 4096, BUCKETS = 200000 };

static const int64_t PERIOD = 50000000;
static const int64_t MILLI = 1000000;

typedef struct {
  int fd;
  int waiting;
  uint16_t id;
  int got;
  int64_t deadline;
  unsigned char reply[REPLY + 1];
} Connection;

static Connection connections[MOST];
static int count;
static int64_t start, begin_counting, end;
static atomic_long polls, missed, late_counts[BUCKETS + 1];

static void die(const char *what) {
  perror(what);
  exit(1);
}

static int64_t now_nanos(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec * 1000000000LL + t.tv_nsec;
}

static void sleep_until(int64_t nanos) {
  struct timespec t = {nanos / 1000000000LL, nanos % 1000000000LL};
  while (clock_nanosleep(CLOCK_MONOTONIC, TIMER_ABSTIME, &t, NULL) == EINTR) {
  }
}

static int64_t cpu_micros(void) {
  struct rusage use;
  getrusage(RUSAGE_SELF, &use);
  return (use.ru_utime.tv_sec + use.ru_stime.tv_sec) * 1000000LL + use.ru_utime.tv_usec + use.ru_stime.tv_usec;
}

/* ---- the schedule ---- */

static void begun(const Connection *c, int64_t now) {
  if (now >= begin_counting) {
    int64_t late = (now - c->deadline) / 1000;
    polls++;
    late_counts[late < BUCKETS ? late : BUCKETS]++;
  }
}

static void advance(Connection *c, int64_t now) {
  c->deadline += PERIOD;
  int64_t too_late = now - c->deadline - PERIOD / 2;
  if (too_late > 0) {
    int64_t skipped = (too_late + PERIOD - 1) / PERIOD;
    c->deadline += skipped * PERIOD;
    if (now >= begin_counting) missed += skipped;
  }
}

static long quantile(double share) {
  long seen = 0, rank = (long)(share * (double)polls);
  for (int i = 0; i <= BUCKETS; i++) {
    seen += late_counts[i];
    if (seen > 0 && seen >= rank) return i;
  }
  return 0;
}

/* ---- the client ---- */

static int connected(int port) {
  struct sockaddr_in a = {.sin_family = AF_INET, .sin_port = htons(port), .sin_addr.s_addr = htonl(INADDR_LOOPBACK)};
  int fd = socket(AF_INET, SOCK_STREAM, 0), on = 1;
  if (fd < 0 || connect(fd, (struct sockaddr *)&a, sizeof a)) die("connect");
  setsockopt(fd, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
  return fd;
}

static void ask(Connection *c) {
  c->id++;
  unsigned char q[REQUEST] = {c->id >> 8, c->id & 0xff, 0, 0, 0, 6, 1, 4, 0, 0, 0, 2};
  if (send(c->fd, q, REQUEST, MSG_NOSIGNAL) != REQUEST) die("send");
  c->waiting = 1;
  c->got = 0;
}

static int received(Connection *c) {
  ssize_t n = recv(c->fd, c->reply + c->got, sizeof c->reply - c->got, 0);
  if (n <= 0) die("recv");
  c->got += n;
  if (c->got < REPLY) return 0;
  const unsigned char *r = c->reply;
  if (c->got > REPLY || (r[0] << 8 | r[1]) != c->id || r[2] || r[3] || r[4] || r[5] != 7 || r[6] != 1 || r[7] != 4 || r[8] != 4) {
    fprintf(stderr, "not the answer\n");
    exit(1);
  }
  c->waiting = 0;
  return 1;
}

static void *poll_alone(void *of) {
  Connection *c = of;
  while (c->deadline < end) {
    sleep_until(c->deadline);
    begun(c, now_nanos());
    ask(c);
    while (!received(c)) {
    }
    advance(c, now_nanos());
  }
  return NULL;
}

static void poll_by_threads(void) {
  static pthread_t threads[MOST];
  pthread_attr_t small;
  pthread_attr_init(&small);
  pthread_attr_setstacksize(&small, 65536);
  for (int i = 0; i < count; i++)
    if (pthread_create(&threads[i], &small, poll_alone, &connections[i])) die("pthread_create");
  for (int i = 0; i < count; i++) pthread_join(threads[i], NULL);
}

/* A binary heap of connections by deadline; those that wait for a reply are not in it. */
static Connection *heap[MOST];
static int heap_size;

static void push(Connection *c) {
  int i = heap_size++;
  while (i > 0 && heap[(i - 1) / 2]->deadline > c->deadline) {
    heap[i] = heap[(i - 1) / 2];
    i = (i - 1) / 2;
  }
  heap[i] = c;
}

static Connection *pop(void) {
  Connection *top = heap[0], *last = heap[--heap_size];
  int i = 0;
  while (2 * i + 1 < heap_size) {
    int child = 2 * i + 1;
    if (child + 1 < heap_size && heap[child + 1]->deadline < heap[child]->deadline) child++;
    if (heap[child]->deadline >= last->deadline) break;
    heap[i] = heap[child];
    i = child;
  }
  heap[i] = last;
  return top;
}

static void poll_by_one(int exact) {
  int epoll = epoll_create1(0);
  struct epoll_event events[256];
  for (int i = 0; i < count; i++) {
    struct epoll_event e = {.events = EPOLLIN, .data.ptr = &connections[i]};
    if (epoll_ctl(epoll, EPOLL_CTL_ADD, connections[i].fd, &e)) die("epoll_ctl");
    push(&connections[i]);
  }
  int64_t now = now_nanos();
  while (now < end) {
    int64_t wait = heap_size == 0 ? 1000 * MILLI : heap[0]->deadline <= now ? 0 : heap[0]->deadline - now;
    struct timespec left = {wait / (1000 * MILLI), wait % (1000 * MILLI)};
    int n = exact ? epoll_pwait2(epoll, events, 256, &left, NULL) : epoll_wait(epoll, events, 256, (int)((wait + MILLI - 1) / MILLI));
    if (n < 0 && errno != EINTR) die("epoll");
    now = now_nanos();
    for (int i = 0; i < n; i++) {
      Connection *c = events[i].data.ptr;
      if (received(c)) {
        advance(c, now);
        push(c);
      }
    }
    while (heap_size > 0 && heap[0]->deadline <= now) {
      Connection *c = pop();
      begun(c, now_nanos());
      ask(c);
    }
  }
}

static void only_wake(void) {
  for (int i = 0; i < count; i++) push(&connections[i]);
  while (heap[0]->deadline < end) {
    Connection *c = pop();
    sleep_until(c->deadline);
    int64_t now = now_nanos();
    begun(c, now);
    advance(c, now);
    push(c);
  }
}

/* ---- the device ---- */

/* Counts of a 12 bit input, 0 to 20.5 mA, of a transducer of 4 to 20 mA for 0 to 200 psi. */
static int counts(double psi) { return (int)((4 + psi * 16 / 200) * 4095 / 20.5); }

/* Every machine runs for 35 s of 60 s, out of step with the others: inlet at 45 psi, boosted rises to 100 psi and falls again. */
static void answer(int machine, int64_t now, const unsigned char *q, unsigned char *r) {
  static uint32_t noise = 1;
  noise = noise * 1664525u + 1013904223u;
  double jitter = ((noise >> 16) & 0xff) / 255.0 - 0.5;
  double t = (double)((now / MILLI + machine * 7919LL) % 60000) / 1000;
  double boosted = 45 + 55 * (t < 35 ? 1 - exp(-t / 0.8) : exp(-(t - 35) / 0.5));
  int inlet = counts(45 + jitter), outlet = counts(boosted + jitter);
  memcpy(r, q, 4);
  unsigned char rest[] = {0, 7, q[6], q[7], 4, inlet >> 8, inlet & 0xff, outlet >> 8, outlet & 0xff};
  memcpy(r + 4, rest, sizeof rest);
}

static void serve(void) {
  struct sockaddr_in a = {.sin_family = AF_INET, .sin_addr.s_addr = htonl(INADDR_LOOPBACK)};
  socklen_t length = sizeof a;
  int listener = socket(AF_INET, SOCK_STREAM, 0), on = 1, epoll = epoll_create1(0);
  if (bind(listener, (struct sockaddr *)&a, sizeof a) || listen(listener, MOST)) die("listen");
  getsockname(listener, (struct sockaddr *)&a, &length);
  printf("%d\n", ntohs(a.sin_port));
  fflush(stdout);
  struct epoll_event events[256], e = {.events = EPOLLIN, .data.fd = listener};
  epoll_ctl(epoll, EPOLL_CTL_ADD, listener, &e);
  struct epoll_event in = {.events = EPOLLIN | EPOLLHUP, .data.fd = 0};
  epoll_ctl(epoll, EPOLL_CTL_ADD, 0, &in);
  for (;;) {
    int n = epoll_wait(epoll, events, 256, -1);
    if (n < 0 && errno != EINTR) die("epoll_wait");
    int64_t now = now_nanos();
    for (int i = 0; i < n; i++) {
      int fd = events[i].data.fd;
      unsigned char q[REQUEST], r[REPLY];
      if (fd == 0) exit(0); /* whoever started it has closed its input, or ended */
      if (fd == listener) {
        int client = accept(listener, NULL, NULL);
        if (client < 0) die("accept");
        setsockopt(client, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
        struct epoll_event added = {.events = EPOLLIN, .data.fd = client};
        epoll_ctl(epoll, EPOLL_CTL_ADD, client, &added);
      } else if (recv(fd, q, REQUEST, 0) == REQUEST) {
        answer(fd, now, q, r);
        if (send(fd, r, REPLY, MSG_NOSIGNAL) != REPLY) close(fd);
      } else {
        close(fd);
      }
    }
  }
}

int main(int argc, char **argv) {
  struct rlimit files = {8192, 8192};
  setrlimit(RLIMIT_NOFILE, &files);
  if (argc == 2 && !strcmp(argv[1], "serve")) serve();
  if (argc != 6) {
    fprintf(stderr, "serve | threads|exact|one|timer PORT N WARMUP SECONDS\n");
    return 2;
  }
  int port = atoi(argv[2]), timer = !strcmp(argv[1], "timer");
  count = atoi(argv[3]);
  if (count < 1 || count > MOST) {
    fprintf(stderr, "1 to %d connections\n", MOST);
    return 2;
  }
  for (int i = 0; i < count; i++) connections[i].fd = timer ? -1 : connected(port);
  start = now_nanos() + 100 * MILLI;
  begin_counting = start + atoi(argv[4]) * 1000 * MILLI;
  end = begin_counting + atoi(argv[5]) * 1000 * MILLI;
  for (int i = 0; i < count; i++) connections[i].deadline = start + PERIOD * i / count;
  pthread_t meter;
  extern void *measured(void *);
  int64_t before = 0;
  if (pthread_create(&meter, NULL, measured, &before)) die("pthread_create");
  if (timer)
    only_wake();
  else if (strcmp(argv[1], "threads"))
    poll_by_one(!strcmp(argv[1], "exact"));
  else
    poll_by_threads();
  int64_t used = cpu_micros() - before;
  printf("%ld %ld %lld %ld %ld %ld\n", polls, missed, (long long)used, quantile(0.5), quantile(0.99), quantile(1));
  return 0;
}

/* Notes what was used when the counting begins. */
void *measured(void *before) {
  sleep_until(begin_counting);
  *(int64_t *)before = cpu_micros();
  return NULL;
}
