/* Asks the installed C face one question, as another program would. */
#include <halfnut.h>
#include <stdio.h>
#include <string.h>

int main(void) {
    const char* answer = halfnut_ask(
        "{\"question\": \"knurl_blank\", \"values\": {\"diameter\": \"0.75 in\", \"pitch\": \"96 DP\"}}");
    const int right = strstr(answer, "\"teeth\": 72") != NULL;
    printf("halfnut %s: %.60s...\n", halfnut_version(), answer);
    halfnut_free(answer);
    return right ? 0 : 1;
}
