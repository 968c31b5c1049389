/* Opens, hashes and reads one model file. SPDX-License-Identifier: GPL-3.0-or-later */
#include "data/params_file.h"

#include "base/file.h"
#include "base/hash.h"
#include "base/limits.h"

#include <assert.h>
#include <stdio.h>

enum err_code params_read_file(const char *folder, const char *name, params_reader read, struct arena *a,
                               struct params *p, uint64_t *hash, struct err *e)
{
    assert(read != NULL);
    char path[LIMIT_PATH];
    struct file_view view;
    struct json_doc doc;
    int length = snprintf(path, sizeof path, "%s/%s", folder, name);
    if (length < 0 || (size_t)length >= sizeof path) {
        return err_set(e, ERR_NOINPUT, "the name of the models folder is longer than %d bytes", LIMIT_PATH - 1);
    }
    enum err_code code = file_view(path, LIMIT_JSON_BYTES, &view, e);
    if (code == ERR_NOINPUT) {
        err_set(
            e, code,
            "cannot be opened: the files of the model belong into the folder \"models\" beside the program, or into "
            "that which SUGARLEA_MODELS names; install sugarlea again, or set it right");
        return err_at(e, path, 0, 0, NULL);
    }
    if (code != ERR_OK) {
        return code;
    }
    *hash = hash_fnv1a(*hash, view.data, view.size);
    code = json_parse(view.data, view.size, path, &doc, e);
    if (code == ERR_OK) {
        code = read(&doc, a, p, e);
        json_release(&doc);
    } else if (code == ERR_DATA) {
        code = ERR_CONFIG;
        if (e) {
            e->code = code;
        }
    }
    file_unview(&view);
    return code;
}
