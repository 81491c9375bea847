/* What was said to a test, one piece after another. Needs cmocka.h, stdio.h and string.h. */
#ifndef TESTS_SAID_H
#define TESTS_SAID_H

static char said[4000];

/* Hears a remark: for struct listener. */
static inline void keep_remark(void *to, const char *remark)
{
    (void)to;
    size_t used = strlen(said);
    snprintf(said + used, sizeof said - used, "%s|", remark);
}

static inline void assert_said(const char *part)
{
    if (!strstr(said, part))
        fail_msg("'%s' is not in '%s'", part, said);
}

static inline void assert_not_said(const char *part)
{
    if (strstr(said, part))
        fail_msg("'%s' is in '%s'", part, said);
}

#endif
