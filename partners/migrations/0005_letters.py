import django.db.models.deletion
import django.utils.timezone
import partners.ground.wall
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('partners', '0004_money'),
    ]

    operations = [
        migrations.CreateModel(
            name='Wording',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('document', models.CharField(max_length=40, verbose_name='sheet')),
                ('language', models.CharField(default='en', max_length=8, verbose_name='language')),
                ('part', models.CharField(max_length=40, verbose_name='part of the sheet')),
                ('number', models.PositiveIntegerField(default=1, verbose_name='version')),
                ('words', models.TextField(blank=True, verbose_name='words')),
            ],
            options={
                'verbose_name': 'own words',
                'ordering': ['document', 'language', 'part', '-number'],
                'default_related_name': 'wordings',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='wording_in_program'), models.UniqueConstraint(fields=('program', 'document', 'language', 'part', 'number'), name='wording_version_once')],
            },
        ),
        migrations.CreateModel(
            name='Batch',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('kind', models.CharField(choices=[('thanks', 'thanks of a month'), ('year_end', 'year-end notes'), ('outing', 'sheets for an outing')], max_length=8, verbose_name='kind')),
                ('title', models.CharField(max_length=120, verbose_name='title')),
                ('day', models.DateField(verbose_name='printed on')),
                ('first', models.DateField(blank=True, null=True, verbose_name='from')),
                ('last', models.DateField(blank=True, null=True, verbose_name='through')),
                ('outing', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.outing', verbose_name='outing')),
                ('settled_on', models.DateField(blank=True, null=True, verbose_name='all gone out on')),
            ],
            options={
                'verbose_name': 'batch of sheets',
                'verbose_name_plural': 'batches of sheets',
                'ordering': ['-day', '-id'],
                'default_related_name': 'batches',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='batch_in_program'), partners.ground.wall.SameProgram(field='outing', name='batch_outing_wall')],
                'indexes': [models.Index(fields=['program', '-day', '-id'], name='batch_latest'), models.Index(condition=models.Q(('settled_on__isnull', True)), fields=['program', 'day', 'id'], name='batch_open')],
            },
        ),
        migrations.AddField(
            model_name='letter',
            name='place',
            field=models.PositiveIntegerField(blank=True, null=True, verbose_name='place in the batch'),
        ),
        migrations.AddField(
            model_name='letter',
            name='sent_to',
            field=models.EmailField(blank=True, max_length=254, verbose_name='e-mailed to'),
        ),
        migrations.AddField(
            model_name='membership',
            name='calendar_turn',
            field=models.PositiveIntegerField(default=0, editable=False, help_text='Which secret calendar address counts; 0: none was made yet.'),
        ),
        migrations.AddField(
            model_name='letter',
            name='batch',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.batch', verbose_name='batch'),
        ),
        migrations.AddIndex(
            model_name='letter',
            index=models.Index(condition=models.Q(('batch__isnull', False)), fields=['program', 'batch', 'place', 'id'], name='letter_of_batch'),
        ),
        migrations.AddConstraint(
            model_name='letter',
            constraint=partners.ground.wall.SameProgram(field='batch', name='letter_batch_wall'),
        ),
    ]
