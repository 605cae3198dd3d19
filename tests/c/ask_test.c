/* The C face from C: answers, errors as objects, what is given back, and eight threads at once. */
#include <halfnut.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int failures = 0;

static void check(int holds, const char* what, const char* got) {
    if (!holds) {
        ++failures;
        fprintf(stderr, "%s\n  got %.2000s\n", what, got);
    }
}

/* Asks, and looks for a text in the answer. */
static void asks(const char* question, const char* part) {
    const char* answer = halfnut_ask(question);
    check(answer != NULL && strstr(answer, part) != NULL, part, answer == NULL ? "null" : answer);
    halfnut_free(answer);
}

#define BRASS "\"alloy\": \"brass\", "
#define TURN(values) "{\"question\": \"turn\", \"values\": {" values "}}"
#define LATHE(spindle) "\"machine\": {\"name\": \"small\", \"motor_kw\": 1.0, " spindle "}"
#define STEPS "\"spindle\": [{\"rpm\": 200, \"positions\": {\"belt\": \"slow\"}}, {\"rpm\": 600}]"

static void answers(void) {
    asks(TURN(BRASS "\"diameter\": \"1.25 in\""),
         "{\"halfnut\": 1, \"question\": \"turn\", \"version\": 1, ");
    asks(TURN(BRASS "\"diameter\": \"1.25 in\""), "\"diameter_mm\": 31.75, ");
    asks(TURN(BRASS "\"diameter\": \"1.25 in\""), "\"unit\": \"in\", ");
    asks(TURN(BRASS "\"diameter_mm\": 31.75"), "\"unit\": \"mm\", ");
    asks(TURN(BRASS "\"diameter_mm\": 31.75, \"depth\": null"), "\"diameter_mm\": 31.75, ");
    asks(TURN(BRASS "\"diameter_mm\": 40, " LATHE(STEPS)), "\"spindle_rpm\": 600.0, ");
    asks(TURN(BRASS "\"diameter_mm\": 40, \"spindle_rpm\": 150, " LATHE(STEPS)),
         "\"spindle_positions\": {\"belt\": \"slow\"}, ");
}

static void refusals(void) {
    asks(TURN(BRASS "\"diameter\": 3"), "{\"error\": {\"code\": \"unit\", ");
    asks(TURN(BRASS "\"diameter\": 3"), "\"argument\": \"diameter\", \"value\": \"3\"");
    asks(TURN(BRASS "\"diameter_mm\": -3"),
         "\"argument\": \"diameter\", \"value\": \"-3 mm\", \"allowed\": [\"> 0 mm\"]");
    asks(TURN(BRASS "\"diameter_mm\": 30, \"hold\": \"chuk\""),
         "\"argument\": \"hold\", \"value\": \"chuk\", \"nearest\": \"chuck\", \"allowed\": [\"chuck\", ");
    asks(TURN("\"alloy\": \"brasss\", \"diameter_mm\": 30"), "\"code\": \"not_tabulated\", ");
    asks(TURN("\"alloy\": \"brasss\", \"diameter_mm\": 30"),
         "\"argument\": \"alloy\", \"value\": \"brasss\", \"nearest\": ");
    asks(TURN(BRASS "\"diameter_mm\": 10, \"depth_mm\": 8"), "\"argument\": \"depth\", \"value\": \"8 mm\"");
    asks(TURN("\"aloy\": \"brass\""), "\"nearest\": \"alloy\"");
    asks(TURN(BRASS), "\"error\"");
    asks(TURN("\"alloy\": \"brass\""), "turn needs diameter: ");
    asks(TURN(BRASS "\"diameter_mm\": 30, " LATHE("\"spindel\": []")), "\"nearest\": \"spindle\"");
    asks(TURN(BRASS "\"diameter_mm\": 30, " LATHE("\"spindle\": []")),
         "machine: spindle: needs at least one step");
    asks(TURN(BRASS "\"diameter_mm\": 30, \"machine\": \"gap-bed\""),
         "machine must be a machine, got 'gap-bed'");
    asks("{\"question\": \"turm\"}", "no question 'turm'; did you mean 'turn'?");
    asks("{\"question\": 3}", "question must be text, got 3");
    asks("{\"halfnut\": 2, \"question\": \"turn\"}", "halfnut must be 1");
    asks("[]", "a question is an object");
    asks("{\"question\": \"turn\",", "the question is no JSON: ");
    asks("{\"question\": NaN}", "the question is no JSON: ");
    asks("{\"question\": 1e999}", "the question is no JSON: ");
    asks("\"\xff\"", "the question is no JSON: ");
    asks("", "the question is no JSON: ");
    asks(NULL, "the question is no JSON: ");
}

static void large(void) {
    enum { kBytes = 1000002, kDeep = 100000 };
    char* text = calloc(kBytes + 1, 1);
    memset(text, ' ', kBytes);
    asks(text, "longer than a million bytes");
    memset(text, '[', kDeep);
    text[kDeep] = '\0';
    asks(text, "nested too deeply");
    free(text);
}

static void what_stays(void) {
    halfnut_free(NULL);
    halfnut_free(halfnut_questions());
    halfnut_free(halfnut_version());
    check(strstr(halfnut_questions(), "\"const\": \"knurl_blank\"") != NULL, "questions",
          halfnut_questions());
    check(halfnut_version()[0] >= '0' && halfnut_version()[0] <= '9', "version", halfnut_version());
}

static const char* const kAtOnce[] = {
    TURN(BRASS "\"diameter\": \"1.25 in\""),
    TURN("\"alloy\": \"6061-T6\", \"diameter_mm\": 40, \"length_mm\": 50, " LATHE(STEPS)),
    TURN("\"alloy\": \"nothing\", \"diameter_mm\": 40"),
    "{\"question\": \"knurl_blank\", \"values\": {\"diameter\": \"0.75 in\", \"pitch\": \"96 DP\"}}",
    "{\"question\": \"drill\", \"values\": {\"alloy\": \"4130\", \"diameter\": \"1/4 in\"}}",
    "{\"question\": \"cylindrical_fit\", \"values\": {\"text\": \"25 H7/g6\"}}",
};
enum { kThreads = 8, kRounds = 20, kQuestions = sizeof kAtOnce / sizeof *kAtOnce };
static const char* expected[kQuestions];

static void* ask_often(void* wrong) {
    for (int round = 0; round < kRounds; ++round) {
        for (int i = 0; i < kQuestions; ++i) {
            const char* answer = halfnut_ask(kAtOnce[i]);
            *(int*)wrong += strcmp(answer, expected[i]) != 0;
            halfnut_free(answer);
        }
        *(int*)wrong += strstr(halfnut_questions(), "oneOf") == NULL;
    }
    return NULL;
}

/* Eight threads ask the same and get the same. */
static void threads(void) {
    pthread_t thread[kThreads];
    int wrong[kThreads] = {0};
    for (int i = 0; i < kQuestions; ++i) {
        expected[i] = halfnut_ask(kAtOnce[i]);
    }
    for (int i = 0; i < kThreads; ++i) {
        pthread_create(&thread[i], NULL, &ask_often, &wrong[i]);
    }
    for (int i = 0; i < kThreads; ++i) {
        pthread_join(thread[i], NULL);
        check(wrong[i] == 0, "the same answers in every thread", "others");
    }
    for (int i = 0; i < kQuestions; ++i) {
        halfnut_free(expected[i]);
    }
}

static void* ask_first(void* nothing) {
    halfnut_free(halfnut_ask(kAtOnce[1]));
    (void)halfnut_questions();
    return nothing;
}

/* What is made once is made while all threads want it. */
static void first(void) {
    pthread_t thread[kThreads];
    for (int i = 0; i < kThreads; ++i) {
        pthread_create(&thread[i], NULL, &ask_first, NULL);
    }
    for (int i = 0; i < kThreads; ++i) {
        pthread_join(thread[i], NULL);
    }
}

int main(void) {
    first();
    answers();
    refusals();
    large();
    what_stays();
    threads();
    return failures != 0;
}
