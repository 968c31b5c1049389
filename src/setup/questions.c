/* The table of questions, topic by topic. SPDX-License-Identifier: GPL-3.0-or-later */
#include "setup/question.h"

static const struct {
    enum question_id first;
    const struct question *rows;
} topics[] = {{Q_START, start_rows},      {Q_FILE, file_rows},      {Q_PLACE, place_rows}, {Q_SERVICES, service_rows},
              {Q_PADDOCKS, paddock_rows}, {Q_ANIMALS, animal_rows}, {Q_HAYS, hay_rows},    {Q_WRITE, write_rows}};

const struct question *question_at(enum question_id id)
{
    size_t i = sizeof topics / sizeof topics[0] - 1;
    while (topics[i].first > id) {
        i--;
    }
    return &topics[i].rows[id - topics[i].first];
}
