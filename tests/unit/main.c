/* Every test program: the groups of one folder, linked with this. Without arguments all groups
 * run, else those that are named: "out/build/tests/judge window state". */
#include "test.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

static struct group *first, **end = &first;

void group_add(struct group *group)
{
    *end = group;
    end = &group->next;
}

static bool is_asked(const char *name, char **asked)
{
    for (char **one = asked; *one; one++)
        if (strcmp(*one, name) == 0)
            return true;
    return !*asked;
}

int main(int argc, char **argv)
{
    (void)argc;
    int ran = 0, failed = 0;
    for (const struct group *group = first; group; group = group->next)
        if (is_asked(group->name, argv + 1)) {
            failed += group->run() != 0;
            ran++;
        }
    if (ran == 0)
        fprintf(stderr, "%s: there is no such group\n", argv[0]);
    return ran == 0 || failed > 0;
}
