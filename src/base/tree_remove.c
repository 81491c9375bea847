#include "base/tree_remove.h"

#include <ftw.h>
#include <stdio.h>

enum { OPEN_FOLDERS = 16 };

static int remove_one(const char *path, const struct stat *status, int type, struct FTW *where)
{
    (void)status;
    (void)type;
    (void)where;
    remove(path);
    return 0;
}

void tree_remove(const char *path)
{
    nftw(path, remove_one, OPEN_FOLDERS, FTW_DEPTH | FTW_PHYS);
}
