import django.db.models.deletion
import django.utils.timezone
import partners.ground.wall
from django.conf import settings
from django.db import migrations, models


AT_ONCE = 500


def point_at_rows(apps, schema_editor):
    """Which rows each change of before is about or changed."""
    event, touched = apps.get_model("partners", "Event"), apps.get_model("partners", "Touched")
    waiting = []
    told = event.objects.order_by("pk").values_list("pk", "program_id", "about_model", "about_pk", "changes")
    for pk, program, about, about_pk, changes in told.iterator(chunk_size=100):
        places = {(about, about_pk), *((one["model"], one["pk"]) for one in changes)}
        waiting += [
            touched(program_id=program, event_id=pk, model=model, row=row)
            for model, row in sorted(places, key=str)
            if model and row is not None
        ]
        if len(waiting) >= AT_ONCE:
            touched.objects.bulk_create(waiting, batch_size=AT_ONCE)
            waiting = []
    touched.objects.bulk_create(waiting, batch_size=AT_ONCE)


class Migration(migrations.Migration):

    dependencies = [
        ('partners', '0006_shared'),
    ]

    operations = [
        migrations.CreateModel(
            name='LetterPicture',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('use', models.CharField(choices=[('letterhead', 'letterhead picture'), ('signature', 'signature picture')], editable=False, max_length=10, verbose_name='what it is')),
                ('alone', models.BooleanField(default=False, verbose_name="it holds the school's name and address")),
                ('name', models.CharField(blank=True, editable=False, max_length=120, verbose_name='whose signature')),
            ],
            options={
                'verbose_name': 'picture on letters',
                'verbose_name_plural': 'pictures on letters',
                'default_related_name': 'letter_pictures',
            },
        ),
        migrations.CreateModel(
            name='Touched',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('model', models.CharField(max_length=40)),
                ('row', models.BigIntegerField()),
            ],
            options={
                'verbose_name': 'row in a change',
            },
        ),
        migrations.AddField(
            model_name='batch',
            name='signed',
            field=models.BooleanField(default=False, help_text='Else there is room to sign each by hand, which is kinder where they are few.', verbose_name='print my signature on all of them'),
        ),
        migrations.AddField(
            model_name='grant',
            name='accept_by_whom',
            field=models.CharField(blank=True, editable=False, max_length=120, verbose_name='who must accept it'),
        ),
        migrations.AddField(
            model_name='grant',
            name='accept_day_named',
            field=models.BooleanField(default=False, editable=False),
        ),
        migrations.AddField(
            model_name='grant',
            name='accept_due',
            field=models.DateField(blank=True, editable=False, null=True, verbose_name='acceptance due'),
        ),
        migrations.AddField(
            model_name='grant',
            name='accepted_on',
            field=models.DateField(blank=True, editable=False, null=True, verbose_name='accepted on'),
        ),
        migrations.AddIndex(
            model_name='grant',
            index=models.Index(condition=models.Q(('accept_due__isnull', False), ('accepted_on__isnull', True)), fields=['program', 'accept_due', 'id'], name='grant_to_accept'),
        ),
        migrations.AddField(
            model_name='letterpicture',
            name='created_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='letterpicture',
            name='file',
            field=models.ForeignKey(editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.keptfile', verbose_name='picture'),
        ),
        migrations.AddField(
            model_name='letterpicture',
            name='program',
            field=models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program'),
        ),
        migrations.AddField(
            model_name='letterpicture',
            name='school',
            field=models.ForeignKey(editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.school', verbose_name='school'),
        ),
        migrations.AddField(
            model_name='letterpicture',
            name='updated_by',
            field=models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='touched',
            name='event',
            field=models.ForeignKey(db_index=False, on_delete=django.db.models.deletion.CASCADE, related_name='touched', to='partners.event'),
        ),
        migrations.AddField(
            model_name='touched',
            name='program',
            field=models.ForeignKey(db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name='touched', to='partners.program'),
        ),
        migrations.AddConstraint(
            model_name='letterpicture',
            constraint=models.UniqueConstraint(fields=('program', 'id'), name='letterpicture_in_program'),
        ),
        migrations.AddConstraint(
            model_name='letterpicture',
            constraint=partners.ground.wall.SameProgram(field='school', name='letterpicture_school_wall'),
        ),
        migrations.AddConstraint(
            model_name='letterpicture',
            constraint=partners.ground.wall.SameProgram(field='file', name='letterpicture_file_wall'),
        ),
        migrations.AddConstraint(
            model_name='letterpicture',
            constraint=models.UniqueConstraint(condition=models.Q(('school__isnull', True)), fields=('program', 'use'), name='letterpicture_once'),
        ),
        migrations.AddConstraint(
            model_name='letterpicture',
            constraint=models.UniqueConstraint(fields=('program', 'use', 'school'), name='letterpicture_school_once'),
        ),
        migrations.AddConstraint(
            model_name='letterpicture',
            constraint=models.CheckConstraint(condition=models.Q(('use', 'letterhead'), ('school__isnull', True), _connector='OR'), name='letterpicture_signature', violation_error_message='A signature belongs to no school.'),
        ),
        migrations.AddIndex(
            model_name='touched',
            index=models.Index(fields=['program', 'model', 'row', 'event'], name='touched_row'),
        ),
        migrations.AddConstraint(
            model_name='touched',
            constraint=partners.ground.wall.SameProgram(field='event', name='touched_event_wall'),
        ),
        migrations.RunPython(point_at_rows, migrations.RunPython.noop),
    ]
